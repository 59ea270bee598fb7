import { COMPARISON_STATES } from '@breakbook/lab';
import type { Answer, Caller } from '../service.ts';
import { jobDone } from '../signed-report.ts';
import { aComparison, aReference, declaredDigest, keepSuspects } from '../suspect-case.ts';
import { type House, type StateRows, taken } from './state-rows.ts';

/** Rims of known and of unknown making, with the reference that every comparison names; kept when the first is declared. */
let kept: Promise<unknown> | undefined;
function whatIsCompared({ service, maker }: House): Promise<unknown> {
  kept ??= keepSuspects(service).then(() => taken(maker.ask('POST', '/api/references', { body: aReference() })));
  return kept;
}

const declare = (by: Caller, comparison: string) =>
  by.ask('POST', '/api/comparisons', { body: aComparison(comparison) });

async function declareAnew({ maker }: House, by: Caller, comparison: string): Promise<Answer> {
  const { revision } = (await maker.ask('GET', `/api/comparisons/${comparison}`)).body;
  const content = aComparison(comparison, { revision: revision + 1 });
  const body = { reason: 'another characteristic', content };
  return by.ask('POST', `/api/comparisons/${comparison}/revisions`, { body });
}

const decide = (way: 'approval' | 'declining') => async (house: House, by: Caller, comparison: string) => {
  const shown = await declaredDigest(house.maker, comparison);
  const body = { shown, ...(way === 'declining' ? { because: 'walked' } : {}) };
  return by.ask('POST', `/api/comparisons/${comparison}/${way}`, { body });
};
const withdraw = (_house: House, by: Caller, comparison: string) =>
  by.ask('POST', `/api/comparisons/${comparison}/withdrawal`, { body: { reason: 'walked' } });

let looked = 0;
/** Each time another feature of another unit. */
const observe = (_house: House, by: Caller, comparison: string) => {
  looked += 1;
  const content = { specimen: 'MARKET-1', feature: 'label', seen: `DUNLIN ${looked}`, at: '2026-10-01T09:00:00Z' };
  return by.ask('POST', `/api/comparisons/${comparison}/observations`, { body: content });
};

async function declared(house: House): Promise<string> {
  await whatIsCompared(house);
  const comparison = house.fresh('C');
  await taken(declare(house.maker, comparison));
  return comparison;
}

const after =
  (way: (house: House, by: Caller, comparison: string) => Promise<Answer>, by: (house: House) => Caller) =>
  async (house: House) => {
    const comparison = await declared(house);
    await taken(way(house, by(house), comparison));
    return comparison;
  };

/** A result that nothing was concluded from yet, worked out once however many ask for it at a time. */
const results = new Map<string, Promise<{ result: number; shown: string }>>();
function resultOf({ maker }: House, comparison: string, concluded: number): Promise<{ result: number; shown: string }> {
  const known = results.get(`${comparison} ${concluded}`);
  if (known) return known;
  const address = `/api/comparisons/${comparison}`;
  const made = maker
    .ask('POST', `${address}/results`)
    .then((asked) => jobDone(maker, asked))
    .then(() => maker.ask('GET', `${address}/result`))
    .then(({ body: { number, sha256 } }) => ({ result: number, shown: sha256 }));
  results.set(`${comparison} ${concluded}`, made);
  return made;
}

async function conclude(house: House, by: Caller, comparison: string): Promise<Answer> {
  const { state, conclusions } = (await house.maker.ask('GET', `/api/comparisons/${comparison}`)).body;
  const before = conclusions.length;
  const shown = ['approved', 'concluded'].includes(state)
    ? await resultOf(house, comparison, before)
    : { result: 1, shown: '0'.repeat(64) };
  const anew = before > 0 ? { replaces: before, reason: 'worked out again' } : {};
  return by.ask('POST', `/api/comparisons/${comparison}/conclusions`, { body: { ...shown, ...anew } });
}

const COMPARISON_ROWS: StateRows = {
  table: COMPARISON_STATES,
  into: {
    declared,
    approved: after(decide('approval'), ({ having }) => having('define')),
    declined: after(decide('declining'), ({ maker }) => maker),
    concluded: async (house) => {
      const comparison = await after(decide('approval'), ({ having }) => having('define'))(house);
      await taken(conclude(house, house.second, comparison));
      return comparison;
    },
    withdrawn: after(withdraw, ({ maker }) => maker),
  },
  stateOf: async ({ maker }, comparison) => (await maker.ask('GET', `/api/comparisons/${comparison}`)).body.state,
  begins: [
    {
      route: 'POST /api/comparisons',
      moves: ['declare'],
      before: async (house) => {
        await whatIsCompared(house);
        return house.fresh('C');
      },
      ask: (_house, by, comparison) => declare(by, comparison),
      named: (_answer, comparison) => comparison,
    },
  ],
  asks: [
    { route: 'POST /api/comparisons/:comparison/revisions', moves: ['declare anew'], ask: declareAnew },
    { route: 'POST /api/comparisons/:comparison/approval', moves: ['approve'], ask: decide('approval') },
    { route: 'POST /api/comparisons/:comparison/declining', moves: ['decline'], ask: decide('declining') },
    { route: 'POST /api/comparisons/:comparison/withdrawal', moves: ['withdraw'], ask: withdraw },
    {
      route: 'POST /api/comparisons/:comparison/conclusions',
      moves: ['conclude', 'conclude anew'],
      ask: conclude,
    },
  ],
  allowed: [
    {
      act: 'record an observation',
      route: 'POST /api/comparisons/:comparison/observations',
      moves: [],
      by: ['record'],
      ask: observe,
    },
    {
      act: 'work out its result',
      route: 'POST /api/comparisons/:comparison/results',
      moves: [],
      by: ['review', 'decide', 'compare'],
      ask: (_house, by, comparison) => by.ask('POST', `/api/comparisons/${comparison}/results`),
    },
    {
      act: 'report its conclusions',
      route: 'POST /api/comparisons/:comparison/documents',
      moves: [],
      by: ['issue'],
      ask: (_house, by, comparison) =>
        by.ask('POST', `/api/comparisons/${comparison}/documents`, { body: { kind: 'comparison report' } }),
    },
  ],
};

export const COMPARISON_STATE_ROWS: readonly StateRows[] = [COMPARISON_ROWS];
