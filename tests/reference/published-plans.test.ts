import type { Criterion, LotResult } from '@breakbook/lab';
import { normalToleranceConfidence } from '@breakbook/statistics';
import { describe, expect, it } from 'vitest';
import { internalLimit } from '../../libs/acceptance/src/fixtures/invented-lot.js';
import { judged, ref } from '../../libs/acceptance/src/fixtures/judged-lot.js';
import plans from './published-plans.json' with { type: 'json' };

/** Each entry names its source and its standing. */
const { attributes, double, variables } = plans;

const rims = (n: number, failing: number) =>
  Array.from({ length: n }, (_, index) => ({ value: index < failing ? 1400 : 1600 }));

function printedChances(result: LotResult): Record<string, number> {
  const steps = result.lines[0]?.criteria[0]?.steps ?? [];
  return (steps.find(({ question }) => question === 'How often would a poor lot pass?')?.numbers ?? {}) as Record<
    string,
    number
  >;
}

/** That no more than `allowed` of n fail, summed term by term. */
function binomialAcceptance(n: number, allowed: number, share: number): number {
  let [term, sum] = [(1 - share) ** n, 0];
  for (let failing = 0; failing <= allowed; failing++) {
    sum += term;
    term *= ((n - failing) / (failing + 1)) * (share / (1 - share));
  }
  return sum;
}

describe('attribute plans', () => {
  it.each(attributes.map((one) => [one.id, one] as const))(
    '%s: points of the published curve, and the lot on both sides of Ac',
    (_, plan) => {
      const { n, allowed } = plan;
      plan.percent.forEach((percent, index) => {
        // The table prints three digits.
        const [low, high] = [percent * 0.993, percent * 1.007].map((one) => binomialAcceptance(n, allowed, one / 100));
        expect(plan.acceptance[index]).toBeLessThanOrEqual(low as number);
        expect(plan.acceptance[index]).toBeGreaterThanOrEqual(high as number);
      });

      const criteria: Criterion[] = [{ kind: 'failures at most', criterion: 'count', limit: ref, allowed }];
      const accepted = judged(rims(n, allowed), { specimens: n, criteria });
      expect(accepted.outcome).toBe('meets the plan');
      expect(judged(rims(n, allowed + 1), { specimens: n, criteria }).outcome).toBe('does not meet the plan');
      const printed = printedChances(accepted);
      for (const [name, share] of [
        ['5 % failing', 0.05],
        ['10 % failing', 0.1],
        ['20 % failing', 0.2],
      ] as const)
        expect(printed[name]).toBeCloseTo(binomialAcceptance(n, allowed, share), 9);
    },
  );

  it('double sampling: the risk by hand, and every way through the schedule', () => {
    const { stages, looks, byHand } = double;
    const criteria: Criterion[] = [{ kind: 'failures at most', criterion: 'count', limit: ref, allowed: 1, looks }];
    const at = (first: number, second: number | undefined) =>
      judged([...rims(13, first), ...(second === undefined ? [] : rims(13, second))], {
        specimens: 26,
        criteria,
        line: { stages },
      });
    expect(at(0, undefined).outcome).toBe('meets the plan');
    expect(at(1, undefined).outcome).toBe('undecided');
    expect(at(2, undefined).outcome).toBe('does not meet the plan');
    expect(at(1, 0).outcome).toBe('meets the plan');
    expect(at(1, 1).outcome).toBe('does not meet the plan');
    const printed = printedChances(at(0, undefined));
    for (const { share, acceptance } of byHand) expect(printed[`${100 * share} % failing`]).toBeCloseTo(acceptance, 5);
  });
});

describe('a variables plan', () => {
  it('accepts as its published example does: mean - k s at or above the limit', () => {
    const { values, upperLimit, k, index } = variables;
    const tested = values.map((value) => ({ value: 1000 + upperLimit - value }));
    const coverage = 0.9;
    const outcome = (factor: number) => {
      const { confidence } = normalToleranceConfidence({ n: values.length, coverage, k: factor });
      return judged(tested, {
        limits: [internalLimit(1000)],
        criteria: [
          { kind: 'tolerance bound', criterion: 'k', limit: ref, distribution: 'normal', coverage, confidence },
        ],
      }).lines[0]?.criteria[0];
    };
    const answer = outcome(k);
    expect(answer).toMatchObject({ outcome: 'met', numbers: { factor: expect.closeTo(k, 6) } });
    expect(outcome(index + 0.005)?.outcome).toBe('not met');
    expect(outcome(index - 0.005)?.outcome).toBe('met');
  });
});
