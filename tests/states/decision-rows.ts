import { CONCESSION_STATES, DISPOSITION_STATES, type Duty, NONCONFORMITY_STATES, OPINION_STATES } from '@breakbook/lab';
import { keepKeyedLot, keyedLot, VALID } from '../keyed-lot.ts';
import type { Answer, Caller } from '../service.ts';
import { type House, type Into, type StateRows, taken } from './state-rows.ts';

export const followed = (version: number) => ({ 'if-match': `"${version}"` });
export const named = ({ body }: Answer) => `${body.number}`;

/** A thing that has a number, with the version that it is at now. */
export async function asked(by: Caller, house: House, address: string, way: string, body: object): Promise<Answer> {
  const { version } = (await house.maker.ask('GET', address)).body;
  return by.ask('POST', `${address}/${way}`, { body, headers: followed(version) });
}

const FOUND = { title: 'Gauge read without a lamp', found: 'Lamp out.', runs: [], specimens: [] };
const DEALT_WITH = { cause: 'broken', containment: 'compared', correctiveAction: 'bought', due: '2026-12-01' };
const REASON = { reason: 'walked' };

const open = (by: Caller, lot: string) => by.ask('POST', '/api/nonconformities', { body: { ...FOUND, lots: [lot] } });

async function write(house: House, by: Caller, n: string): Promise<Answer> {
  const address = `/api/nonconformities/${n}`;
  const { version, content } = (await house.maker.ask('GET', address)).body;
  const { source: _, ...said } = content;
  return by.ask('PUT', address, {
    headers: followed(version),
    body: { reason: 'looked into', content: { ...said, ...DEALT_WITH } },
  });
}

const nonconformity = (way: 'closing' | 'reopening') => (house: House, by: Caller, n: string) =>
  asked(by, house, `/api/nonconformities/${n}`, way, REASON);

async function openOne(house: House): Promise<string> {
  const { number } = await taken(open(house.maker, SOUND));
  await taken(write(house, house.maker, `${number}`));
  return `${number}`;
}

const NONCONFORMITY_ROWS: StateRows = {
  table: NONCONFORMITY_STATES,
  into: {
    open: openOne,
    closed: async (house) => {
      const n = await openOne(house);
      await taken(nonconformity('closing')(house, house.having('review'), n));
      return n;
    },
  },
  stateOf: async ({ maker }, n) => (await maker.ask('GET', `/api/nonconformities/${n}`)).body.state,
  begins: [{ route: 'POST /api/nonconformities', moves: ['open'], ask: (_house, by) => open(by, SOUND), named }],
  asks: [
    { route: 'PUT /api/nonconformities/:n', moves: ['write in'], ask: write },
    { route: 'POST /api/nonconformities/:n/closing', moves: ['close'], ask: nonconformity('closing') },
    { route: 'POST /api/nonconformities/:n/reopening', moves: ['open again'], ask: nonconformity('reopening') },
  ],
};

const request = (by: Caller, lot: string) =>
  by.ask('POST', '/api/concessions', {
    body: {
      kind: 'concession',
      lot,
      limit: { limit: 'SW-RIM-BURST', revision: 2 },
      departure: 'below the limit of the lab itself',
      bounds: { quantity: 5 },
      until: '2099-12-31',
      reason: 'wanted',
      risk: 'less margin',
    },
  });

const concession = (way: 'grant' | 'refusal' | 'withdrawal') => (house: House, by: Caller, n: string) =>
  asked(by, house, `/api/concessions/${n}`, way, REASON);

const requested = async (house: House) => `${(await taken(request(house.maker, WEAK))).number}`;
const afterRequest =
  (way: 'grant' | 'refusal' | 'withdrawal', by: (house: House) => Caller) => async (house: House) => {
    const n = await requested(house);
    await taken(concession(way)(house, by(house), n));
    return n;
  };

const { who: whoWithdraws } = CONCESSION_STATES.moves.withdraw;
const ASKERS: readonly Duty[] = whoWithdraws === 'itself' ? [] : whoWithdraws;

/** Whoever asked takes it back; the others who may ask, where it was theirs. */
const requestedBy = (by: (house: House) => Caller): Into => ({
  requested: async (house) => `${(await taken(request(by(house), WEAK))).number}`,
  granted: async (house) => {
    const { number } = await taken(request(by(house), WEAK));
    await taken(concession('grant')(house, house.second, `${number}`));
    return `${number}`;
  },
  refused: afterRequest('refusal', ({ second }) => second),
  withdrawn: afterRequest('withdrawal', ({ maker }) => maker),
});

const CONCESSION_ROWS: StateRows = {
  table: CONCESSION_STATES,
  into: requestedBy(({ maker }) => maker),
  stateOf: async ({ maker }, n) => (await maker.ask('GET', `/api/concessions/${n}`)).body.state,
  begins: [{ route: 'POST /api/concessions', moves: ['request'], ask: (_house, by) => request(by, WEAK), named }],
  asks: [
    { route: 'POST /api/concessions/:n/grant', moves: ['grant'], ask: concession('grant') },
    { route: 'POST /api/concessions/:n/refusal', moves: ['refuse'], ask: concession('refusal') },
    ...ASKERS.map(
      (duty) =>
        ({
          route: 'POST /api/concessions/:n/withdrawal',
          moves: ['withdraw'],
          by: [duty],
          into: requestedBy(({ having }) => having(duty)),
          ask: concession('withdrawal'),
        }) as const,
    ),
  ],
};

/** One rim as strong as both limits ask, and one that is weaker than the lab's own. */
export const SOUND = 'SOUND';
const WEAK = 'WEAK';
let lots = 0;

/** A lot of runs that the maker recorded, each reviewed by somebody else. */
export async function lotToDecide(house: House, runs: number[], lot = `DECIDE-${++lots}`, spare = 0): Promise<string> {
  const bundle = keyedLot(
    runs.map((kPa) => ({ kPa, validity: VALID })),
    { lot, spare },
  );
  await keepKeyedLot(house.service, {
    ...bundle,
    runs: bundle.runs.map((run) => ({ ...run, operator: house.maker.person })),
  });
  for (const { run } of bundle.runs) {
    const { headers } = await house.maker.ask('GET', `/api/runs/${run}`);
    await taken(
      house.having('review').ask('POST', `/api/runs/${run}/reviews`, {
        body: { note: 'gone through' },
        headers: { 'if-match': headers.get('etag') ?? '' },
      }),
    );
  }
  return lot;
}

/** The lots that the others lean on. */
export async function keepLotsDecidedAbout(house: House): Promise<void> {
  await lotToDecide(house, [1900], SOUND);
  await lotToDecide(house, [1900, 1600], WEAK);
  // Whoever gives an opinion is authorised for the methods behind the results, by somebody else's word.
  for (const person of ['with-review', 'with-decide'])
    for (const { method, revision } of keyedLot([]).methods)
      await taken(
        house.maker.ask('POST', `/api/people/${person}/competences`, {
          body: { method, revision, level: 'authorised', until: '2099-12-31', note: 'six runs watched' },
        }),
      );
}

export async function decide(by: Caller, house: House, lot: string, more: object = {}): Promise<Answer> {
  const { sha256: shown } = (await house.maker.ask('GET', `/api/lots/${lot}/disposition`)).body;
  return by.ask('POST', `/api/lots/${lot}/dispositions`, {
    body: { outcome: 'accepted', reason: 'as the sheet says', shown, ...more },
  });
}

async function countersign(house: House, by: Caller, n: string): Promise<Answer> {
  const { lot } = (await house.maker.ask('GET', `/api/dispositions/${n}`)).body;
  const { sha256: shown } = (await house.maker.ask('GET', `/api/lots/${lot}/disposition`)).body;
  return by.ask('POST', `/api/dispositions/${n}/signatures`, { body: { shown } });
}

const DISPOSITION_ROWS: StateRows = {
  table: DISPOSITION_STATES,
  into: {
    'waits for a second decider': async (house) => {
      const lot = await lotToDecide(house, [1900, 1600]);
      const { items } = (await house.maker.ask('GET', `/api/nonconformities?lot=${lot}`)).body;
      for (const { number } of items) {
        await taken(write(house, house.maker, number));
        await taken(nonconformity('closing')(house, house.having('review'), number));
      }
      const { number } = await taken(request(house.maker, lot));
      await taken(concession('grant')(house, house.second, number));
      return named({
        body: await taken(decide(house.second, house, lot, { outcome: 'accepted on concession' })),
      } as Answer);
    },
    'in force': async (house) =>
      `${(await taken(decide(house.second, house, await lotToDecide(house, [1900])))).number}`,
    replaced: async (house) => {
      const lot = await lotToDecide(house, [1900]);
      const { number } = await taken(decide(house.second, house, lot));
      await taken(decide(house.second, house, lot, { outcome: 'not accepted', replaces: number }));
      return `${number}`;
    },
  },
  stateOf: async ({ maker }, n) => (await maker.ask('GET', `/api/dispositions/${n}`)).body.state,
  begins: [
    {
      route: 'POST /api/lots/:lot/dispositions',
      moves: ['decide'],
      before: (house) => lotToDecide(house, [1900]),
      ask: (house, by, lot) => decide(by, house, lot),
      named,
    },
  ],
  asks: [
    {
      route: 'POST /api/dispositions/:n/signatures',
      moves: ['countersign'],
      ask: countersign,
      other: ({ second }) => second,
    },
  ],
};

const OPINION = { text: 'The break begins at the valve hole.', basis: 'The results alone.' };

const give = (by: Caller) => by.ask('POST', '/api/opinions', { body: { ...OPINION, lot: SOUND } });
const takeBack = (house: House, by: Caller, n: string) => asked(by, house, `/api/opinions/${n}`, 'withdrawal', REASON);
const given = async (house: House) => `${(await taken(give(house.having('review')))).number}`;

const OPINION_ROWS: StateRows = {
  table: OPINION_STATES,
  into: {
    given,
    withdrawn: async (house) => {
      const n = await given(house);
      await taken(takeBack(house, house.having('review'), n));
      return n;
    },
  },
  stateOf: async ({ maker }, n) => (await maker.ask('GET', `/api/opinions/${n}`)).body.state,
  begins: [{ route: 'POST /api/opinions', moves: ['give'], ask: (_house, by) => give(by), named }],
  asks: [
    {
      route: 'PUT /api/opinions/:n',
      moves: ['say anew'],
      async ask({ maker }, by, n) {
        const { version } = (await maker.ask('GET', `/api/opinions/${n}`)).body;
        return by.ask('PUT', `/api/opinions/${n}`, {
          body: { ...REASON, content: OPINION },
          headers: followed(version),
        });
      },
    },
    { route: 'POST /api/opinions/:n/withdrawal', moves: ['withdraw'], ask: takeBack },
  ],
};

export const DECISION_ROWS: readonly StateRows[] = [
  NONCONFORMITY_ROWS,
  CONCESSION_ROWS,
  DISPOSITION_ROWS,
  OPINION_ROWS,
];
