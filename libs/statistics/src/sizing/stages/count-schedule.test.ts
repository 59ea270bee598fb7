import { describe, expect, it } from 'vitest';
import { binomialCdf } from '../../distributions/binomial.js';
import { countScheduleChance } from './count-schedule.js';

describe('a schedule of counts', () => {
  // None of 3; one of 3, then none of 6 more. By hand, p = 0.1: 0.9^3 + 3 (0.1) 0.9^2 0.9^6 = 0.729 + 0.243 0.531441
  // = 0.858140; broken on average 3 + 6 (0.243) = 4.458 (double sampling, Dodge and Romig 1929).
  const three = [
    { adds: 3, accept: 0, reject: 2 },
    { adds: 6, accept: 1, reject: 2 },
  ];

  it('comes to the sum of its paths', () => {
    const { acceptance, expected, settledAt } = countScheduleChance(three, 0.1);
    expect(acceptance).toBeCloseTo(0.729 + 0.243 * 0.531441, 12);
    expect(expected).toBeCloseTo(4.458, 12);
    expect(settledAt[0]).toBeCloseTo(1 - 0.243, 12);
    expect((settledAt[0] ?? 0) + (settledAt[1] ?? 0)).toBeCloseTo(1, 12);
  });

  it('of one stage is the binomial plan', () => {
    for (const share of [0.01, 0.1, 0.5])
      expect(countScheduleChance([{ adds: 13, accept: 2, reject: 3 }], share).acceptance).toBeCloseTo(
        binomialCdf(2, 13, share),
        12,
      );
  });

  it('of a lot draws without putting back: by counting, 2 bad of 10', () => {
    // None of 3: C(8,3)/C(10,3) = 56/120. One of 3: 2 C(8,2)/C(10,3) = 56/120, then none of 6 among the 7 left with one
    // bad: C(6,6)/C(7,6) = 1/7. Together 56/120 (1 + 1/7) = 8/15.
    expect(countScheduleChance(three, 0.2, { lotSize: 10 }).acceptance).toBeCloseTo(8 / 15, 12);
  });

  it('accepts a population without failures always and one of failures never', () => {
    expect(countScheduleChance(three, 0).acceptance).toBe(1);
    expect(countScheduleChance(three, 1).acceptance).toBe(0);
  });

  it('refuses a schedule that leaves something open', () => {
    expect(() => countScheduleChance([{ adds: 3, accept: 0, reject: 2 }], 0.1)).toThrow(
      /neither accepted nor rejected/,
    );
    expect(() => countScheduleChance(three, 0.1, { lotSize: 8 })).toThrow(/9 specimens cannot come from a lot of 8/);
  });
});
