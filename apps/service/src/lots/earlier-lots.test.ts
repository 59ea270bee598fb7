import { randomUUID } from 'node:crypto';
import type { EarlierSample, LotBundle, LotResult } from '@breakbook/lab';
import { tables } from '@breakbook/records';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { keepKeyedLot, keyedLot, VALID } from '../../../../tests/keyed-lot.js';
import { type SignedInCaller, startTestService, type TestService } from '../../../../tests/service.js';
import { storedLot } from './lot-bundle.js';

let service: TestService;
let head: SignedInCaller;

const POOLING: LotBundle['plan']['claim']['pooling'] = {
  rule: 'earlier lots',
  lots: 2,
  test: 'k-sample Anderson-Darling',
  level: 0.05,
  shiftThatMatters: 0.05,
};

/** A lot whose plan pools, with the strengths of its rims and the day on which it was finished. */
function pooling(lot: string, madeTo: string, strengths: number[], rule = POOLING): LotBundle {
  const bundle = keyedLot(
    strengths.map((kPa) => ({ kPa, validity: VALID })),
    { lot },
  );
  const [line] = bundle.plan.lines as [LotBundle['plan']['lines'][number]];
  const limit = { limit: 'OCF-W-7.2', revision: 1 };
  return {
    ...bundle,
    lot: { ...bundle.lot, madeFrom: madeTo, madeTo },
    plan: {
      ...bundle.plan,
      claim: { ...bundle.plan.claim, population: 'process', pooling: rule },
      lines: [
        {
          ...line,
          criteria: [
            {
              kind: 'tolerance bound',
              criterion: 'A1',
              limit,
              distribution: 'normal',
              coverage: 0.9,
              confidence: 0.95,
            },
          ],
        },
      ],
    },
  };
}

const OLDEST = [1810, 1850, 1900, 1930, 1990];
const OLDER = [1800, 1840, 1890, 1920, 1960];
const LAST = [1820, 1860, 1880, 1910, 1970];
const THIS = [1830, 1870, 1890, 1940, 1980];

beforeAll(async () => {
  service = await startTestService();
  for (const [lot, day, strengths] of [
    ['OLDEST', '2026-05-01', OLDEST],
    ['OLDER', '2026-05-20', OLDER],
    ['LAST', '2026-06-01', LAST],
    ['LATER', '2026-07-10', LAST],
  ] as const)
    await keepKeyedLot(service, pooling(lot, day, [...strengths]));
  await keepKeyedLot(service, pooling('THIS', '2026-06-20', THIS));
  await keepKeyedLot(service, pooling('ALONE', '2026-06-21', THIS, 'none'));
  head = await service.signIn('head-of-test', ['review', 'audit']);
}, 170_000);
afterAll(() => service.close());

const earlierOf = async (lot: string): Promise<EarlierSample[] | undefined> =>
  (await storedLot(service.records.read(service.lab.labId), lot)).bundle.earlier;

async function evaluationOf(lot: string): Promise<tables.Evaluation> {
  const rows = service.records.read(service.lab.labId);
  const { id } = await rows.named(tables.Lot, lot);
  const [evaluation] = (await rows.find(tables.Evaluation, { lotId: id })).slice(-1);
  if (!evaluation) throw new Error(`Lot ${lot} has no evaluation.`);
  return evaluation;
}

/** Has work done, and waits for it. */
async function done(path: string) {
  const asked = await head.ask('POST', path, { headers: { 'idempotency-key': randomUUID() } });
  expect(asked, JSON.stringify(asked.body)).toMatchObject({ status: 202 });
  const at = asked.headers.get('location') ?? '';
  await (await head.fetch(`${at}/events`)).text();
  return (await head.ask('GET', at)).body;
}

describe('earlier lots of a plan that pools', () => {
  it('are the last ones finished before, as their last evaluations took them', async () => {
    expect(await earlierOf('THIS')).toMatchObject([
      {
        lot: 'LAST',
        madeTo: '2026-06-01',
        sample: { exact: LAST },
        evaluation: `${(await evaluationOf('LAST')).number}`,
      },
      {
        lot: 'OLDER',
        madeTo: '2026-05-20',
        sample: { exact: OLDER },
        evaluation: `${(await evaluationOf('OLDER')).number}`,
      },
    ]);
  });

  it('are none where the plan pools none, and none before the first', async () => {
    expect(await earlierOf('ALONE')).toBeUndefined();
    expect(await earlierOf('OLDEST')).toEqual([]);
  });

  it('enter the bound, are named by the evaluation, and are found again when it is recomputed', async () => {
    const { number, content } = await evaluationOf('THIS');
    const criterion = (content as LotResult).lines[0]?.criteria[0];
    expect(criterion?.pooled).toMatchObject({
      used: true,
      n: 15,
      lots: [
        { lot: 'LAST', n: 5, evaluation: `${(await evaluationOf('LAST')).number}` },
        { lot: 'OLDER', n: 5, evaluation: `${(await evaluationOf('OLDER')).number}` },
      ],
    });
    // One more evaluation of an earlier lot is another record: this one stands on the values as they were.
    await done('/api/lots/LAST/evaluations');
    const { recomputation } = await done('/api/recomputations');
    const { body } = await head.ask('GET', `/api/recomputations/${recomputation}`);
    expect(body.evaluations).toMatchObject({ different: [], refused: [] });
    expect((await head.ask('GET', `/api/evaluations/${number}`)).body.result.lines[0].criteria[0].pooled.used).toBe(
      true,
    );
    const now = await earlierOf('THIS');
    expect(now?.[0]?.evaluation).toBe(`${(await evaluationOf('LAST')).number}`);
    expect(now?.[0]?.evaluation).not.toBe(criterion?.pooled?.lots[0]?.evaluation);
  });
});
