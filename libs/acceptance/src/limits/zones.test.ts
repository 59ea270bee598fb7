import type { Limit, MeasuredLimit, Result } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import { internalLimit } from '../fixtures/invented-lot.js';
import { judgeValue } from './judge-value.js';

const limit = internalLimit(1500, { rule: 'four zones', r: 1 }) as MeasuredLimit;
const result = (value: Result['value'], expanded: number | undefined = 14): Result => ({
  characteristic: 'burstPressure',
  title: 'Burst pressure',
  unit: 'kPa',
  value,
  ...(expanded === undefined ? {} : { uncertainty: { expanded, k: 2 } }),
  because: 'the bead flange broke',
});
const judged = (value: Result['value'], against: MeasuredLimit = limit, expanded?: number) =>
  judgeValue({ limit: against, result: result(value, expanded), specimen: '0401', difference: false });

describe('the rule of four zones', () => {
  // ILAC-G8:09/2019, 4.2.3 with w = U = 14: pass from TL + w, conditional pass from TL, conditional fail above TL - w.
  it.each([
    [1514, 'conforms', 'inside the limit'],
    [1513.9, 'conforms conditionally', 'inside the limit, within the guard band'],
    [1500, 'conforms conditionally', 'inside the limit, within the guard band'],
    [1499.9, 'does not conform conditionally', 'outside the limit, within the guard band'],
    [1486.1, 'does not conform conditionally', 'outside the limit, within the guard band'],
    [1486, 'does not conform', 'outside the limit'],
  ])('%d kPa against 1500 kPa: %s', (value, outcome, zone) => {
    expect(judged({ kind: 'exact', value })).toMatchObject({ outcome, zone, margin: expect.closeTo(value - 1500, 9) });
  });

  it('takes a value known from one side for the worst it stands for, on one side of the limit', () => {
    expect(judged({ kind: 'atLeast', value: 1505 }).outcome).toBe('conforms conditionally');
    expect(judged({ kind: 'atLeast', value: 1495 }).outcome).toBe('not evaluated');
    expect(judged({ kind: 'atMost', value: 1495 }).outcome).toBe('does not conform');
    expect(judged({ kind: 'atMost', value: 1500 }).outcome).toBe('does not conform');
    expect(judged({ kind: 'between', lower: 1490, upper: 1495 }).outcome).toBe('does not conform conditionally');
    expect(judged({ kind: 'between', lower: 1490, upper: 1505 }).outcome).toBe('not evaluated');
  });

  it('has conditional outcomes only where the bands are wider than the tolerance', () => {
    const { value: _, ...rest } = limit as Extract<Limit, { bound: 'at least' }>;
    const narrow: MeasuredLimit = { ...rest, bound: 'between', lower: 1500, upper: 1510 };
    expect(judged({ kind: 'exact', value: 1505 }, narrow).outcome).toBe('conforms conditionally');
    expect(judged({ kind: 'exact', value: 1515 }, narrow).outcome).toBe('does not conform conditionally');
    expect(judged({ kind: 'exact', value: 1530 }, narrow).outcome).toBe('does not conform');
  });

  it('says nothing without an uncertainty', () => {
    const verdict = judgeValue({
      limit,
      result: { ...result({ kind: 'exact', value: 1600 }), uncertainty: undefined } as unknown as Result,
      specimen: '0401',
      difference: false,
    });
    expect(verdict).toMatchObject({ outcome: 'not evaluated', because: expect.stringContaining('needs the expanded') });
  });
});

describe('the probability of conformance', () => {
  // JCGM 106:2012, clause 7: Phi((y - TL) / u) for a lower limit, u = U / k = 7. One u inside: Phi(1) = 0.841345.
  it('is that of the measurement alone', () => {
    expect(judged({ kind: 'exact', value: 1507 }).probabilityOfConformance).toBeCloseTo(0.841345, 6);
    expect(judged({ kind: 'exact', value: 1500 }).probabilityOfConformance).toBeCloseTo(0.5, 12);
  });

  it('is not evaluated of a value known from one side', () => {
    expect(judged({ kind: 'atLeast', value: 1600 }).probabilityOfConformance).toHaveProperty('notEvaluated');
  });

  it('stands in the last step of the verdict, with its source', () => {
    expect(judged({ kind: 'exact', value: 1507 }).steps?.at(-1)).toMatchObject({
      numbers: { probability: expect.closeTo(0.841345, 6) },
      source: expect.stringContaining('JCGM 106:2012'),
    });
  });
});
