import type { Criterion } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import { examined, internalLimit } from '../../fixtures/invented-lot.js';
import { bound, broke, complete, every, judged, ref, survived, type Tested } from '../../fixtures/judged-lot.js';

const atMost = (allowed: number): Criterion => ({ kind: 'failures at most', criterion: 'count', limit: ref, allowed });
const mean = (confidence: number): Criterion => ({ kind: 'mean', criterion: 'mean', limit: ref, confidence });
const low = (...values: number[]): Tested[] => values.map((value) => ({ value }));

describe('at most so many failures', () => {
  it.each<[string, Tested[], Criterion, string, string | undefined]>([
    ['one too many', low(1400, 1400, 1800, 1800, 1800), atMost(1), 'not met', '2 are too many'],
    ['one too many, and too few yet', low(1400, 1400), atMost(1), 'not met', '2 are too many'],
  ])('%s', (_, tested, criterion, outcome, because) => {
    const [answer] = judged(tested, { criteria: [criterion] }).lines[0]?.criteria ?? [];
    expect(answer).toMatchObject({ outcome });
    if (because) expect(answer?.because).toContain(because);
  });
});

describe('the mean within a limit', () => {
  it('is met where its lower limit lies at or above the limit', () => {
    // mean 1800, s 79.0569, t(0.95; 4) = 2.131847 (handbook table): 1800 - 2.131847 79.0569 / sqrt 5 = 1724.629.
    const [answer] = judged(complete, { criteria: [mean(0.95)] }).lines[0]?.criteria ?? [];
    expect(answer).toMatchObject({ outcome: 'met', numbers: { lower: expect.closeTo(1724.629, 2) } });
  });
});

describe('a raised load', () => {
  const raised = (loadRatio: number, shape = 10): Criterion => ({
    kind: 'zero failures',
    criterion: 'raised',
    limit: ref,
    reliability: 0.9,
    confidence: 0.9,
    raised: { loadRatio, shape, shapeSource: 'invented', lowerShapes: [shape / 2], modes: ['BF-FLG'] },
  });
  const [answerOf] = [
    (tested: Tested[], criterion: Criterion) => judged(tested, { criteria: [criterion] }).lines[0]?.criteria[0],
  ];

  it('carries over by the shape of the Weibull distribution', () => {
    // 5 survivors show 0.1^(1/5) = 0.630957 at the load; at the limit 0.630957^(1.1^-10) = exp(-0.460517 / 2.593742)
    // = 0.837320 (Nelson 1985, formula by hand). At 1.2 it is exp(-0.460517 / 6.191736) = 0.928322.
    expect(answerOf(complete, raised(1.1))).toMatchObject({
      outcome: 'not met',
      numbers: { 'reliability shown': expect.closeTo(0.83732, 5) },
    });
    const higher = low(1800, 1850, 1900, 1950, 2000);
    expect(answerOf(higher, raised(1.2))).toMatchObject({
      outcome: 'met',
      numbers: { 'reliability shown': expect.closeTo(0.928322, 5) },
      steps: expect.arrayContaining([expect.objectContaining({ question: 'And if the shape were lower?' })]),
    });
  });

  it('is not met where one breaks below it, and open where one was stopped below it', () => {
    expect(answerOf(complete, raised(1.2))).toMatchObject({
      outcome: 'not met',
      because: expect.stringContaining('none may fail'),
    });
    const stopped = [...low(1800, 1850, 1900, 1950), { value: 1700, examination: survived }];
    expect(answerOf(stopped, raised(1.2))).toMatchObject({ outcome: 'not evaluated' });
  });

  it('keeps the guard band of the rule, at the raised load too', () => {
    // 1.1 x 1500 = 1650 kPa and U = 14: 1664 kPa must be held.
    const guarded = [internalLimit(1500, { rule: 'guarded', r: 1 })];
    const at = (value: number) =>
      judged([{ value }, ...complete.slice(1)], { limits: guarded, criteria: [raised(1.1)] }).lines[0]?.criteria[0];
    expect(at(1664)).toMatchObject({ numbers: { survivors: 5, failures: 0 } });
    expect(at(1663)).toMatchObject({ outcome: 'not met', numbers: { survivors: 4, failures: 1 } });
  });

  it('is not met where one fails the limit itself, in whatever mode', () => {
    const weak = { value: 1400, examination: examined('something broke', ['BT-OFF'], 'not sound') };
    expect(answerOf([...complete.slice(0, 4), weak], raised(1.1))).toMatchObject({
      outcome: 'not met',
      because: expect.stringContaining('(0405)'),
    });
  });

  it('says nothing where specimens fail in another way there', () => {
    const pump = examined('something broke', ['BT-OFF'], 'sound');
    const other = [...low(1850, 1850, 1900, 1950), { value: 1900, examination: pump }];
    expect(answerOf(other, raised(1.2))).toMatchObject({
      outcome: 'not evaluated',
      because: expect.stringContaining('changed how specimens fail: BT-OFF'),
    });
  });
});

describe('an outlier', () => {
  const low5 = low(1800, 1805, 1795, 1802, 1500);
  it('is flagged, shown with and without, and never dropped', () => {
    const [line] = judged(low5, { criteria: [every, bound('normal', 0.5, 0.5)] }).lines;
    expect(line?.outliers).toMatchObject([
      {
        specimen: '0405',
        side: 'low',
        bounds: [{ criterion: 'bound', with: expect.any(Number), without: expect.any(Number) }],
      },
    ]);
    expect(line?.counts.inClaim).toBe(5);
    const [first] = line?.outliers ?? [];
    expect(first?.bounds[0]?.with).toBe(line?.criteria[1]?.bound?.value);
  });

  it('is not one where specimens that held may be stronger still', () => {
    const held = [2000, 2000].map((value) => ({ value, examination: survived }));
    const [high] = judged([...low(1500, 1502, 1504, 1506, 1700), ...held], { criteria: [every], specimens: 7 }).lines;
    expect(high).not.toHaveProperty('outliers');
    const [weak] = judged([...low(1800, 1805, 1795, 1802, 1500), ...held], { criteria: [every], specimens: 7 }).lines;
    expect(weak?.outliers).toMatchObject([{ specimen: '0405', side: 'low' }]);
  });

  it('is not seen where there is none', () => {
    expect(judged(complete, { criteria: [every] }).lines[0]).not.toHaveProperty('outliers');
  });
});

describe('a forecast', () => {
  const three = complete.slice(0, 3).map((one) => ({ ...one, examination: broke }));
  it('is made while planned runs remain, and only then', () => {
    const [line] = judged(three, { criteria: [every] }).lines;
    expect(line?.forecast).toMatchObject({ remaining: 2, sentence: expect.stringContaining('2 planned runs') });
    expect(judged(complete, { criteria: [every] }).lines[0]).not.toHaveProperty('forecast');
  });

  it('by counts is that of the urn', () => {
    // Jeffreys' prior, none of 3 failing: two more hold with probability (3.5 / 4) (4.5 / 5) = 0.7875, by hand.
    const [line] = judged(three, { criteria: [every] }).lines;
    const forecast = line?.forecast as { probability: number; error: number };
    expect(Math.abs(forecast.probability - 0.7875)).toBeLessThan(4 * forecast.error);
  });

  it('by strengths rises with the distance from the limit', () => {
    const at = (limit: number) => {
      const [line] = judged(three, { criteria: [bound('normal', limit, 0.9)] }).lines;
      const forecast = line?.forecast as { probability: number };
      return forecast.probability;
    };
    expect(at(0.5)).toBeGreaterThan(at(0.99));
  });
});
