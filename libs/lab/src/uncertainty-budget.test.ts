import { describe, expect, it } from 'vitest';
import { UncertaintyBudget } from './methods.js';

const components = ['calibration', 'drift'].map((name) => ({ from: 'standard', name, u: 1, unit: 'kPa' }));
const said = (budget: object) => {
  const read = UncertaintyBudget.safeParse({ components, ...budget });
  return read.success ? [] : read.error.issues.map(({ path, message }) => `/${path.join('/')}: ${message}`);
};

describe('an uncertainty budget', () => {
  it('has a factor or a coverage, and its correlations name its components', () => {
    expect(said({ k: 2 })).toEqual([]);
    expect(said({ coverage: 0.95, correlations: [{ between: ['calibration', 'drift'], r: 0.5 }] })).toEqual([]);
  });

  it('is refused with neither or both, and with a stranger in a correlation', () => {
    const neither = '/k: either k or coverage must be given, and not both';
    expect(said({})).toEqual([neither]);
    expect(said({ k: 2, coverage: 0.95 })).toEqual([neither]);
    expect(said({ k: 2, correlations: [{ between: ['calibration', 'zero'], r: 0.5 }] })).toEqual([
      '/correlations/0/between: must name two components, each of which stands once in the budget',
    ]);
  });
});
