import { CERTIFICATE_STATES } from '@breakbook/lab';
import type { Answer, Caller } from '../service.ts';
import { askToSign, draftReport, jobDone } from '../signed-report.ts';
import { decide, lotToDecide, named } from './decision-rows.ts';
import { type House, type StateRows, taken } from './state-rows.ts';

/** A lot for each state, so that what stands in one is superseded by nothing that is brought into another. */
const LOTS = { begun: 'CERT-B', 'in force': 'CERT-F', 'on hold': 'CERT-H', superseded: 'CERT-S', withdrawn: 'CERT-W' };
const issued = new Map<string, { disposition: number; report: number; sha256: string; last?: number }>();

/** Lots that are decided about, each with its signed report. */
export async function keepCertifiedLots(house: House): Promise<void> {
  const { maker, second } = house;
  for (const lot of Object.values(LOTS)) {
    await lotToDecide(house, [1900], lot);
    const draft = await draftReport(maker, maker, lot);
    const { document: report } = await jobDone(maker, await askToSign(maker, draft));
    const { number: disposition } = await taken(decide(second, house, lot));
    const { sha256 } = (await maker.ask('GET', `/api/documents/${report}`)).body;
    issued.set(lot, { disposition, report, sha256 });
  }
}

async function issue(by: Caller, lot: string): Promise<Answer> {
  const of = issued.get(lot);
  if (!of) throw new Error(`Lot ${lot} has no signed report.`);
  const { report, sha256: shown, last } = of;
  const replaces = { certificate: last, changed: 'nothing', because: 'walked' };
  const body = { report, shown, ...(last === undefined ? {} : { replaces }) };
  const answer = await by.ask('POST', `/api/dispositions/${of.disposition}/certificates`, { body });
  if (answer.status === 201) of.last = answer.body.number;
  return answer;
}

const one = async ({ maker }: House, lot: string) => `${(await taken(issue(maker, lot))).number}`;
const way = (to: string) => (_house: House, by: Caller, n: string) =>
  by.ask('POST', `/api/certificates/${n}/${to}`, { body: { reason: 'walked' } });

const CERTIFICATE_ROWS: StateRows = {
  table: CERTIFICATE_STATES,
  into: {
    'in force': (house) => one(house, LOTS['in force']),
    'on hold': async (house) => {
      const n = await one(house, LOTS['on hold']);
      await taken(way('hold')(house, house.maker, n));
      return n;
    },
    superseded: async (house) => {
      const n = await one(house, LOTS.superseded);
      await one(house, LOTS.superseded);
      return n;
    },
    withdrawn: async (house) => {
      const n = await one(house, LOTS.withdrawn);
      await taken(way('withdrawal')(house, house.maker, n));
      delete issued.get(LOTS.withdrawn)?.last;
      return n;
    },
  },
  stateOf: async ({ maker }, n) => (await maker.ask('GET', `/api/certificates/${n}`)).body.state,
  begins: [
    {
      route: 'POST /api/dispositions/:n/certificates',
      moves: ['issue'],
      ask: (_house, by) => issue(by, LOTS.begun),
      named,
    },
  ],
  asks: [
    { route: 'POST /api/certificates/:n/hold', moves: ['put on hold'], ask: way('hold') },
    { route: 'POST /api/certificates/:n/release', moves: ['release'], ask: way('release') },
    { route: 'POST /api/certificates/:n/withdrawal', moves: ['withdraw'], ask: way('withdrawal') },
  ],
};

export const CERTIFICATE_STATE_ROWS: readonly StateRows[] = [CERTIFICATE_ROWS];
