import type { MethodCharacteristic, UncertaintyBudget } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import { type BudgetInput, budgetOf } from './budget.js';

const wanted = (uncertainty: UncertaintyBudget): MethodCharacteristic => ({
  characteristic: 'burstPressure',
  title: 'Burst pressure',
  kind: 'pressure',
  unit: 'kPa',
  definition: 'invented for tests',
  uncertainty,
});
const calibration = (u: number) => ({ u, unit: 'kPa', calibration: 'C-1' });
const input = (over: Partial<BudgetInput> = {}): BudgetInput => ({
  value: 1500,
  calibrations: new Map([
    ['rimPressure', calibration(5)],
    ['rimPressure2', calibration(5)],
  ]),
  sensitivity: (channel) => (channel === 'rimPressure' ? 1 : channel === 'rimPressure2' ? -1 : undefined),
  ...over,
});
const stated = (budget: UncertaintyBudget) => {
  const { uncertainty, step } = budgetOf(wanted(budget), input());
  if (!uncertainty) throw new Error(step?.answer ?? 'none');
  return uncertainty;
};
const sensor = (channel: string) => ({ from: 'calibration' as const, name: channel, channel });
const rectangle = (name: string, halfWidth: number) => ({
  from: 'half width' as const,
  name,
  halfWidth,
  unit: 'kPa',
  distribution: 'rectangular' as const,
});

describe('a budget with a fixed factor', () => {
  it('is k times the root of the sum of squares', () => {
    // JCGM 100:2008 (GUM), 4.3.7 and 5.1.2: 5 and 6/√3.
    const { expanded, k } = stated({ k: 2, components: [sensor('rimPressure'), rectangle('hysteresis', 6)] });
    expect([expanded, k]).toEqual([expect.closeTo(2 * Math.hypot(5, 6 / Math.sqrt(3)), 12), 2]);
  });
});

describe('a budget with a coverage', () => {
  it('of one rectangle takes 95 % of its half width', () => {
    // JCGM 100:2008 (GUM), G.1.3 and 4.3.7: 0.95 a, which is 1.65 u. k is rounded up to two decimals.
    const { expanded, k, coverage } = stated({ coverage: 0.95, components: [rectangle('resolution', 10)] });
    expect([k, coverage]).toEqual([1.65, 0.95]);
    expect(expanded).toBeCloseTo((1.65 * 10) / Math.sqrt(3), 9);
    expect(expanded).toBeGreaterThanOrEqual(9.5);
  });

  it('of normal parts takes 1.96', () => {
    expect(stated({ coverage: 0.95, components: [sensor('rimPressure'), sensor('rimPressure2')] }).k).toBe(1.96);
  });

  it('lies between where both count', () => {
    const { k } = stated({ coverage: 0.95, components: [sensor('rimPressure'), rectangle('hysteresis', 20)] });
    expect(k).toBeGreaterThan(1.65);
    expect(k).toBeLessThan(1.96);
  });

  it('says in its steps what was asked and what came of it', () => {
    const { step } = budgetOf(wanted({ coverage: 0.95, components: [rectangle('resolution', 10)] }), input());
    expect(step?.answer).toContain('with k = 1.65 for 95.0 % by the distributions of the parts');
    expect(step?.numbers).toMatchObject({ coverage: 0.95, k: 1.65 });
  });
});

describe('parts that err together', () => {
  const two = [sensor('rimPressure'), sensor('rimPressure2')];
  const together = (r: number) => [{ between: ['rimPressure', 'rimPressure2'] as [string, string], r }];

  it('add or cancel by the way each moves the value', () => {
    // JCGM 100:2008 (GUM), 5.2.2: u² = 25 + 25 + 2 · (1)(−1) · 25 r.
    expect(stated({ k: 2, components: two, correlations: together(0.5) }).expanded).toBeCloseTo(2 * 5, 9);
    expect(stated({ k: 2, components: two, correlations: together(-1) }).expanded).toBeCloseTo(2 * 10, 9);
  });

  it('that cancel altogether leave nothing to state', () => {
    expect(budgetOf(wanted({ k: 2, components: two, correlations: together(1) }), input())).toEqual({
      step: expect.objectContaining({ answer: 'No uncertainty is stated: its correlated parts cancel.' }),
    });
  });

  it('that cannot all hold state nothing', () => {
    const three = ['a', 'b', 'c'].map((name) => ({ from: 'standard' as const, name, u: 1, unit: 'kPa' }));
    const against = [
      ['a', 'b'],
      ['a', 'c'],
      ['b', 'c'],
    ].map((between) => ({ between: between as [string, string], r: -1 }));
    expect(budgetOf(wanted({ k: 2, components: three, correlations: against }), input()).step?.answer).toBe(
      'No uncertainty is stated: its correlations cannot all hold.',
    );
  });

  it('of normal parts stay normal under a coverage; those with bounds are not guessed', () => {
    const { k, expanded } = stated({ coverage: 0.95, components: two, correlations: together(0.5) });
    expect([k, expanded]).toEqual([1.96, expect.closeTo(1.96 * 5, 9)]);
    const budget: UncertaintyBudget = {
      coverage: 0.95,
      components: [sensor('rimPressure'), rectangle('hysteresis', 6)],
      correlations: [{ between: ['rimPressure', 'hysteresis'], r: 0.5 }],
    };
    expect(budgetOf(wanted(budget), input()).step?.answer).toContain('known for normal parts only');
  });
});

describe('a component that cannot be had', () => {
  it('leaves no uncertainty, rather than one too small', () => {
    const { uncertainty, step } = budgetOf(
      wanted({ coverage: 0.95, components: [sensor('flow'), rectangle('resolution', 1)] }),
      input(),
    );
    expect(uncertainty).toBeUndefined();
    expect(step?.answer).toBe('No uncertainty is stated: no calibration is in force for channel flow.');
  });
});
