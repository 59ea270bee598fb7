import { randomUUID } from 'node:crypto';
import type { LotBundle } from '@breakbook/lab';
import { expect } from 'vitest';
import { keepKeyedLot, keyedLot, keyedRun, VALID } from './keyed-lot.ts';
import { formOf } from './sent-runs.ts';
import { type Answer, type Caller, type SignedInCaller, type TestService } from './service.ts';

/** Bursts of three lots of known making, in kPa. */
const REFERENCE = {
  'REF-A': [1890, 1930, 1910, 1950],
  'REF-B': [1870, 1900, 1940, 1880],
  'REF-C': [1920, 1960, 1900, 1930],
} as const;
/** The lot under which rims bought at a market were received, as what their labels say. */
export const MARKET = 'MARKET';

/** Rims of three known lots, all of them broken, one more of the first lot, and rims of unknown making that nobody ran yet. */
export async function keepSuspects(service: TestService, suspects = 2): Promise<LotBundle> {
  for (const [lot, kPa] of Object.entries(REFERENCE)) {
    const runs = kPa.map((one) => ({ kPa: one, validity: VALID }));
    const bundle = keyedLot(runs, { lot, spare: 1 });
    const specimens = bundle.specimens.map((one, index) =>
      index < kPa.length ? one : { ...one, origin: 'hand-picked' as const },
    );
    await keepKeyedLot(service, { ...bundle, specimens });
  }
  const market = keyedLot([], { lot: MARKET, planned: suspects, spare: suspects });
  const build = { 'bought at': 'the market of Grayford, second stall' };
  const specimens = market.specimens.map((one) => ({ ...one, origin: 'suspect' as const, build }));
  return keepKeyedLot(service, { ...market, specimens });
}

const units = Object.entries(REFERENCE).flatMap(([lot, kPa]) =>
  kPa.map((_, index) => ({ specimen: `${lot}-${index + 1}`, lot, serial: `S-${lot}-${index + 1}` })),
);

export const aReference = (reference = 'D42-KNOWN') => ({
  reference,
  revision: 1,
  title: 'Dunlin 42 made in June',
  product: 'dunlin-42',
  madeFrom: '2026-06-01',
  madeTo: '2026-06-30',
  choice: 'Every rim that was run of the three lots whose build records are whole.',
  units,
  variants: { list: 'change notes of Dunlin 42, March to June', checkedBy: 'i-sorbo', features: { label: [] } },
});

export const BURST = {
  name: 'burst',
  title: 'Burst pressure',
  source: { from: 'runs', method: 'BURST-TABLE', methodRevision: 1, characteristic: 'burstPressure' },
  unit: 'kPa',
  tool: { kind: 'prediction', distribution: 'normal', of: 'each', side: 'below', lots: 'alike' },
} as const;

export const MASS = {
  name: 'mass',
  title: 'Mass',
  source: { from: 'examination', feature: 'mass' },
  unit: 'g',
  tool: { kind: 'prediction', distribution: 'normal', of: 'each', side: 'below', lots: 'alike' },
} as const;

const FEATURES = [
  {
    feature: 'label',
    title: 'Label on the rim',
    kind: 'label text',
    howRead: 'Letter by letter, in capitals as printed.',
    changesItem: false,
  },
  {
    feature: 'mass',
    title: 'Mass of the bare rim',
    kind: 'mass',
    howRead: 'Balance B2, rim dry and bare.',
    changesItem: false,
  },
  {
    feature: 'plies',
    title: 'Plies in section',
    kind: 'ply count and order',
    howRead: 'Count in a section opposite the valve.',
    changesItem: true,
  },
];

/** What is declared of the rims bought at the market and of one that is known, which nobody is told. */
export const aComparison = (comparison = 'MARKET-1', change: object = {}) => ({
  comparison,
  revision: 1,
  title: 'Two rims bought at the market of Grayford',
  product: 'dunlin-42',
  question: 'Do items MARKET-1, MARKET-2 and REF-A-5 agree with Dunlin 42 as made in June, in burst pressure?',
  compared: {
    what: 'items with a reference',
    reference: { reference: 'D42-KNOWN', revision: 1 },
    items: ['MARKET-1', 'MARKET-2', 'REF-A-5'],
  },
  characteristics: [BURST],
  features: FEATURES,
  confidence: 0.95,
  correction: 'Holm',
  power: 0.8,
  notExamined: ['resin family', 'fibre content'],
  mayGoToCourt: false,
  seed: 7,
  ...change,
});

/** The digest of what a comparison declares last, as an approval names it. */
export async function declaredDigest(by: Caller, comparison: string): Promise<string> {
  return (await by.ask('GET', `/api/comparisons/${comparison}`)).body.sha256;
}

/** A run that bursts an item, its value keyed. */
export async function sendBurst(by: SignedInCaller, specimen: string, kPa: number): Promise<Answer> {
  const lot = specimen.slice(0, specimen.lastIndexOf('-'));
  const [model] = keyedLot([{ kPa }], { lot }).runs;
  if (!model) throw new Error('The sample lot has no run.');
  const { files: _, ...run } = keyedRun(model, lot, Number(specimen.slice(lot.length + 1)), kPa, undefined);
  const body = formOf({ ...run, plan: { plan: `PLAN-${lot}`, revision: 1 } });
  return by.ask('POST', '/api/runs', { body, headers: { 'idempotency-key': randomUUID() } });
}

/** Bursts an item, and has its run decided about by somebody who knows no limit. */
export async function burstItem(
  as: { operator: SignedInCaller; head: SignedInCaller },
  specimen: string,
  kPa: number,
): Promise<void> {
  const sent = await sendBurst(as.operator, specimen, kPa);
  expect(sent.status, JSON.stringify(sent.body)).toBe(201);
  await decideRun(as.head, sent.body.run);
}

/** Finds a run valid as it stands. */
async function decideRun(by: SignedInCaller, run: string): Promise<void> {
  const { headers } = await by.ask('GET', `/api/runs/${run}`);
  const decided = { body: { validity: 'valid' }, headers: { 'if-match': headers.get('etag') ?? '' } };
  const answer = await by.ask('POST', `/api/runs/${run}/validity`, decided);
  expect(answer.status, JSON.stringify(answer.body)).toBeLessThan(300);
}

/** Reviews every run that the last result of a comparison rests on, so that a report of it can be signed. */
export async function reviewRuns(by: SignedInCaller, comparison: string): Promise<void> {
  const { body } = await by.ask('GET', `/api/comparisons/${comparison}/result`);
  for (const { run } of body.restsOn.runs) {
    const { headers } = await by.ask('GET', `/api/runs/${run}`);
    const reviewed = { body: {}, headers: { 'if-match': headers.get('etag') ?? '' } };
    const answer = await by.ask('POST', `/api/runs/${run}/reviews`, reviewed);
    expect(answer.status, JSON.stringify(answer.body)).toBeLessThan(300);
  }
}
