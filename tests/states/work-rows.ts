import { randomUUID } from 'node:crypto';
import { LOT_STATES, RUN_STATES, SPECIMEN_STATES } from '@breakbook/lab';
import { keyedLot } from '../keyed-lot.ts';
import { burstFile, burstRun, formOf, type SentRun } from '../sent-runs.ts';
import type { Answer, Caller } from '../service.ts';
import { type Ask, type House, type StateRows, taken, versionOf } from './state-rows.ts';

/** The lot whose specimens and runs are walked, and its plan: it is imported before. */
export const WORKED_LOT = 'WORKED';
const MODEL = keyedLot([{ kPa: 1900 }], { lot: WORKED_LOT, planned: 500 });
const REASON = { reason: 'walked' };

/** The specimens are handed out by the maker, hand-picked so that no claim and no retest comes in. */
const specimenOf = (specimen: string, lot = WORKED_LOT) => ({
  ...MODEL.specimens[0],
  specimen,
  lot,
  serial: `S-${specimen}`,
  origin: 'hand-picked',
});

async function receivedIn(house: House, lot: string): Promise<string> {
  const specimen = house.fresh('S');
  await taken(house.maker.ask('POST', '/api/specimens', { body: specimenOf(specimen, lot) }));
  return specimen;
}

const received = (house: House) => receivedIn(house, WORKED_LOT);

/** A run without a file, its value keyed; it destroyed its specimen unless it says otherwise. */
const keyed = (specimen: string, run: string, change: Partial<SentRun> = {}) => {
  const { files: _, validity: _v, ...model } = MODEL.runs[0] ?? { files: [] };
  return { ...model, run, specimen, plan: { plan: MODEL.plan.plan, revision: MODEL.plan.revision }, ...change };
};

const send = (by: Caller, run: unknown, files: Record<string, string> = {}) =>
  by.ask('POST', '/api/runs', { body: formOf(run, files), headers: { 'idempotency-key': randomUUID() } });

const EXAMINED = (endReason: string) => ({
  endReason,
  modes: endReason === 'something broke' ? [{ code: 'BF-FLG' }] : [],
  partSound: endReason === 'something broke' ? 'not sound' : 'sound',
  person: 'b-ravenscroft',
  at: '2026-07-14T08:31:05Z',
});

/** A run that its specimen survived, named with it. */
async function survived(house: House): Promise<string> {
  const specimen = await received(house);
  const run = keyed(specimen, house.fresh('R'), { examination: EXAMINED('rig limit reached') } as Partial<SentRun>);
  const { run: key } = await taken(send(house.maker, run));
  return `${specimen} ${key}`;
}

export async function said(house: House, by: Caller, specimen: string, move: string): Promise<Answer> {
  const address = `/api/specimens/${specimen}/states`;
  return by.ask('POST', address, { headers: await versionOf(house, address), body: { move, note: 'rack 4' } });
}

const inStates = (begun: (house: House) => Promise<string>): StateRows['into'] => {
  const after = (move: string) => async (house: House) => {
    const thing = await begun(house);
    await taken(said(house, house.maker, thing.split(' ')[0] ?? '', move));
    return thing;
  };
  return { received: begun, conditioned: after('condition'), ready: after('make ready'), retained: after('retain') };
};

const saidMove = (move: string): Ask => ({
  route: 'POST /api/specimens/:specimen/states',
  moves: [move],
  ask: (house, by, thing) => said(house, by, thing, move),
});

/** All but how a specimen is disposed of. */
export const SPECIMEN_ROWS: StateRows = {
  table: SPECIMEN_STATES,
  into: {
    ...inStates(received),
    destroyed: async (house) => {
      const specimen = await received(house);
      await taken(send(house.maker, keyed(specimen, house.fresh('R'))));
      return specimen;
    },
  },
  stateOf: async ({ maker }, thing) => (await maker.ask('GET', `/api/specimens/${thing.split(' ')[0]}`)).body.state,
  begins: [
    {
      route: 'POST /api/specimens',
      moves: ['receive'],
      ask: (_house, by, specimen) => by.ask('POST', '/api/specimens', { body: specimenOf(specimen) }),
      named: (_answer, specimen) => specimen,
    },
    {
      route: 'POST /api/specimens/several',
      moves: ['receive'],
      ask: (_house, by, specimen) =>
        by.ask('POST', '/api/specimens/several', { body: { specimens: [specimenOf(specimen)] } }),
      named: (_answer, specimen) => specimen,
    },
  ],
  asks: [
    ...['condition', 'make ready', 'retain', 'take out'].map(saidMove),
    {
      route: 'POST /api/runs',
      moves: ['destroy'],
      by: ['record'],
      ask: (house, by, specimen) => send(by, keyed(specimen, house.fresh('R'))),
    },
    {
      route: 'POST /api/runs',
      moves: ['destroy'],
      by: ['send'],
      // A rig sends its file.
      ask: (house, by, specimen) =>
        send(by, { ...burstRun(specimen), run: house.fresh('R') }, { 'log.csv': burstFile(specimen) }),
    },
    {
      route: 'POST /api/runs/:run/examination',
      moves: ['destroy'],
      into: inStates(survived),
      movesNothing: { retained: 'what is seen of a run is noted; the pieces stay where they are put away' },
      ask: async (house, by, thing) => {
        const at = `/api/runs/${thing.split(' ')[1]}`;
        const body = { examination: EXAMINED('something broke'), reason: 'a crack was found' };
        return by.ask('POST', `${at}/examination`, { headers: await versionOf(house, at), body });
      },
    },
  ],
};

const LOT_ROWS: StateRows = {
  table: LOT_STATES,
  into: {
    open: (house) => openLot(house),
    closed: async (house) => {
      const lot = await openLot(house);
      await taken(house.maker.ask('POST', `/api/lots/${lot}/closing`, { body: REASON }));
      return lot;
    },
  },
  stateOf: async ({ maker }, lot) => ((await maker.ask('GET', `/api/lots/${lot}`)).body.closed ? 'closed' : 'open'),
  begins: [
    {
      route: 'POST /api/lots',
      moves: ['enter'],
      ask: (_house, by, lot) => enter(by, lot),
      named: (_answer, lot) => lot,
    },
  ],
  asks: [
    {
      route: 'POST /api/lots/:lot/closing',
      moves: ['close'],
      ask: (_house, by, lot) => by.ask('POST', `/api/lots/${lot}/closing`, { body: REASON }),
    },
    {
      route: 'POST /api/lots/:lot/opening',
      moves: ['open again'],
      ask: (_house, by, lot) => by.ask('POST', `/api/lots/${lot}/opening`, { body: REASON }),
    },
  ],
  allowed: [
    {
      act: 'receive a specimen',
      route: 'POST /api/specimens',
      moves: [],
      by: ['draw'],
      ask: (house, by, lot) => by.ask('POST', '/api/specimens', { body: specimenOf(house.fresh('S'), lot) }),
    },
    {
      act: 'receive a specimen',
      route: 'POST /api/specimens/several',
      moves: [],
      by: ['draw'],
      ask: (house, by, lot) =>
        by.ask('POST', '/api/specimens/several', { body: { specimens: [specimenOf(house.fresh('S'), lot)] } }),
    },
    {
      act: 'record a run',
      route: 'POST /api/runs',
      moves: [],
      by: ['record'],
      into: {
        open: async (house) => receivedIn(house, await openLot(house)),
        closed: async (house) => {
          const lot = await openLot(house);
          const specimen = await receivedIn(house, lot);
          await taken(house.maker.ask('POST', `/api/lots/${lot}/closing`, { body: REASON }));
          return specimen;
        },
      },
      ask: (house, by, specimen) => send(by, keyed(specimen, house.fresh('R'))),
    },
  ],
};

function enter(by: Caller, lot: string): Promise<Answer> {
  const { sampling: _, ...content } = MODEL.lot;
  return by.ask('POST', '/api/lots', { body: { ...content, lot, customer: MODEL.customer } });
}

async function openLot(house: House): Promise<string> {
  const lot = house.fresh('L');
  await taken(enter(house.maker, lot));
  return lot;
}

const DECISIONS: Record<string, object> = {
  valid: { validity: 'valid' },
  'valid with deviation': { validity: 'valid with deviation', note: 'conditioned for 40 minutes' },
  invalid: { validity: 'invalid', reason: 'rig fault' },
  void: { validity: 'void', note: 'entered twice' },
};

async function decide(house: House, by: Caller, run: string, body: object): Promise<Answer> {
  const at = `/api/runs/${run}`;
  return by.ask('POST', `${at}/validity`, { headers: await versionOf(house, at), body });
}

/** Recorded by the maker, decided by somebody else. */
const decidedAfter = (recorded: (house: House) => Promise<string>): StateRows['into'] => ({
  'not decided': recorded,
  ...Object.fromEntries(
    Object.entries(DECISIONS).map(([state, body]) => [
      state,
      async (house: House) => {
        const run = await recorded(house);
        await taken(decide(house, house.having('review'), run, body));
        return run;
      },
    ]),
  ),
});

async function recorded(house: House): Promise<string> {
  return (await taken(send(house.maker, keyed(await received(house), house.fresh('R'))))).run;
}

async function recordedWithFile(house: House): Promise<string> {
  const specimen = await received(house);
  const run = { ...burstRun(specimen), run: house.fresh('R') };
  return (await taken(send(house.maker, run, { 'log.csv': burstFile(specimen) }))).run;
}

const entered = (route: string, body: object, into?: StateRows['into']): Ask => ({
  route: `POST /api/runs/:run/${route}`,
  moves: ['correct'],
  ...(into ? { into } : {}),
  async ask(house, by, run) {
    const at = `/api/runs/${run}`;
    return by.ask('POST', `${at}/${route}`, { headers: await versionOf(house, at), body });
  },
});

const RUN_ROWS: StateRows = {
  table: RUN_STATES,
  into: decidedAfter(recorded),
  stateOf: async ({ maker }, run) =>
    (await maker.ask('GET', `/api/runs/${run}`)).body.run.validity?.validity ?? 'not decided',
  begins: [
    {
      route: 'POST /api/runs',
      moves: ['record'],
      by: ['record'],
      before: received,
      ask: (house, by, specimen) => send(by, keyed(specimen, house.fresh('R'))),
      named: ({ body }) => body.run,
    },
    {
      route: 'POST /api/runs',
      moves: ['record'],
      by: ['send'],
      before: received,
      ask: (house, by, specimen) =>
        send(by, { ...burstRun(specimen), run: house.fresh('R') }, { 'log.csv': burstFile(specimen) }),
      named: ({ body }) => body.run,
    },
  ],
  asks: [
    entered('measurements', { measurements: [{ measurement: MODEL.runs[0]?.measurements[0] }] }),
    entered('examination', { examination: EXAMINED('something broke'), reason: 'looked at again' }),
    entered('instants', { instant: 'failure', at: 10, reason: 'heard on the video' }, decidedAfter(recordedWithFile)),
    {
      route: 'POST /api/runs/:run/validity',
      moves: ['decide', 'decide anew'],
      ask: (house, by, run) => decide(house, by, run, { validity: 'valid', note: 'seen again' }),
    },
  ],
  allowed: [
    {
      act: 'be reviewed',
      route: 'POST /api/runs/:run/reviews',
      moves: [],
      by: ['review'],
      async ask(house, by, run) {
        const headers = await versionOf(house, `/api/runs/${run}`);
        return by.ask('POST', `/api/runs/${run}/reviews`, { headers, body: { note: 'gone through' } });
      },
    },
  ],
};

export const WORK_ROWS: readonly StateRows[] = [LOT_ROWS, RUN_ROWS];
