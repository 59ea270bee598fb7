import { evaluateLot } from '@breakbook/acceptance';
import { type CriterionResult, isNotEvaluated, LotBundle, type LotResult } from '@breakbook/lab';
import { convert } from '@breakbook/units';
import { describe, expect, it } from 'vitest';
import strengths from './graphite-epoxy-lot.json' with { type: 'json' };
import lives from './handbook-life-lot.json' with { type: 'json' };

/** A published table judged the way a lot is: keyed values, examinations, plan, criteria. */
function judged(bundle: unknown): LotResult {
  const { result, refused } = evaluateLot(LotBundle.parse(bundle), () => []);
  expect(refused).toEqual([]);
  return result;
}

function lineOf(result: LotResult) {
  const [line] = result.lines;
  if (!line || isNotEvaluated(line.weibull)) throw new Error('the lot has one line, and its fit exists');
  return { ...line, weibull: line.weibull };
}

// The file names the source of the data and how the expected values were found.
describe('tensile strength of 38 graphite/epoxy coupons, from a results table', () => {
  const { expected, tolerance } = strengths;
  const result = judged(strengths.bundle);
  const line = lineOf(result);
  // The table is in ksi, the method in MPa: 1 ksi = 1000 psi (NIST SP 811).
  const inKsi = (value: number) => convert(value, line.unit, '[psi]') / 1000;
  const close = (found: number, wanted: number) =>
    expect(Math.abs(found / wanted - 1), `${found} for ${wanted}`).toBeLessThanOrEqual(tolerance.relative);

  it('gives the mean and scatter', () => {
    if (isNotEvaluated(line.summary)) throw new Error('every value is exact, so there is a mean');
    expect(line.summary.n).toBe(expected.n);
    close(inKsi(line.summary.mean), expected.mean);
    close(inKsi(line.summary.sd), expected.sd);
  });

  it('gives the Weibull fit with its limits', () => {
    close(line.weibull.shape, expected.shape);
    close(inKsi(line.weibull.scale), expected.scale);
    if (isNotEvaluated(line.weibull.shapeLimits)) throw new Error('a complete sample has limits');
    line.weibull.shapeLimits.forEach((limit, index) => {
      close(limit, expected.shapeLimits95[index] as number);
    });
  });

  it.each(Object.entries(expected.bounds))('gives the lower tolerance bound %s', (name, bound) => {
    const criterion = line.criteria.find((one) => one.criterion === name);
    close(inKsi(criterion?.bound?.value ?? Number.NaN), bound);
  });

  it('judges each criterion, and the lot by all of them', () => {
    const outcomes = Object.fromEntries(line.criteria.map((one) => [one.criterion, one.outcome]));
    expect(outcomes).toEqual(expected.outcomes);
    expect(result.outcome).toBe('does not meet the plan');
    expect(result.sentence).toContain('criterion weibull-99 is not met: the lower bound');
  });
});

describe('life of 20 units on a test ended at 500 h, from a results table', () => {
  const { expected, tolerance } = lives;
  const result = judged(lives.bundle);
  const line = lineOf(result);

  it('gives the published Weibull fit, survivors counted as at least 500 h', () => {
    expect(line.weibull).toMatchObject({ n: expected.n, failures: expected.failures });
    expect(Math.abs(line.weibull.shape / expected.shape - 1)).toBeLessThanOrEqual(tolerance.relative);
    expect(Math.abs(line.weibull.scale / expected.scale - 1)).toBeLessThanOrEqual(tolerance.relative);
    expect(isNotEvaluated(line.summary)).toBe(true);
  });

  it('gives a bound although no exact one exists, with the confidence that simulated tests reach', () => {
    const [criterion] = line.criteria as [CriterionResult];
    const { bound } = criterion;
    expect(bound?.technique).toBe('calibrated');
    expect(Math.abs((bound?.value ?? 0) / expected.bound.value - 1)).toBeLessThanOrEqual(expected.bound.relative);
    expect(bound?.achievedConfidence).toBeGreaterThan(0.95);
    expect(criterion).toMatchObject({ outcome: 'not met', because: expect.stringContaining('the lower bound') });
    expect(result.outcome).toBe('does not meet the plan');
  });
});
