import { type CharacteristicValue, type Limit, notEvaluated, type Result } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import { plainly } from '../fixtures/plainly.js';
import { judgeValue } from './judge-value.js';

const common = {
  limit: 'BP-INT',
  revision: 2,
  title: 'Burst pressure',
  characteristic: 'burstPressure',
  basis: 'internal',
  appliesTo: 'touring, rim brake',
  source: 'design margin of Saltmarsh Wheelworks',
  edition: '2031',
  inForceFrom: '2031-01-01',
  approvedBy: 'ada',
  standing: 'confirmed by the lab',
  unit: 'kPa',
} as const;

const atLeast = (value: number, r?: number, unit = 'kPa'): Limit => ({
  ...common,
  unit,
  bound: 'at least',
  value,
  decisionRule: r === undefined ? { rule: 'simple' } : { rule: 'guarded', r },
});
const atMost = (value: number, r?: number): Limit => ({
  ...common,
  bound: 'at most',
  value,
  decisionRule: r === undefined ? { rule: 'simple' } : { rule: 'guarded', r },
});
const between = (lower: number, upper: number, r?: number): Limit => ({
  ...common,
  bound: 'between',
  lower,
  upper,
  decisionRule: r === undefined ? { rule: 'simple' } : { rule: 'guarded', r },
});

const result = (value: Result['value'], U?: number): Result => ({
  characteristic: 'burstPressure',
  title: 'Burst pressure',
  unit: 'kPa',
  value,
  because: 'the rim broke there',
  ...(U === undefined ? {} : { uncertainty: { expanded: U, k: 2 } }),
});
const exact = (value: number): CharacteristicValue => ({ kind: 'exact', value });
const held = (value: number): CharacteristicValue => ({ kind: 'atLeast', value });
const under = (value: number): CharacteristicValue => ({ kind: 'atMost', value });
const span = (lower: number, upper: number): CharacteristicValue => ({ kind: 'between', lower, upper });

const judge = (limit: Limit, value: Result['value'], U?: number) =>
  plainly(judgeValue({ limit, result: result(value, U), specimen: '0417', difference: false }));

describe('one value against one limit, simple rule', () => {
  // By definition: a value stands for every number it may be; all accepted, none accepted, or some.
  it.each<[string, Limit, CharacteristicValue, string, number | undefined]>([
    ['exact above', atLeast(1500), exact(1501), 'conforms', 1],
    ['exact on the limit', atLeast(1500), exact(1500), 'conforms', 0],
    ['exact just below', atLeast(1500), exact(1499.9999), 'does not conform', -0.0001],
    ['at least, above', atLeast(1500), held(1800), 'conforms', 300],
    ['at least, on the limit', atLeast(1500), held(1500), 'conforms', 0],
    ['at least, below', atLeast(1500), held(1499), 'not evaluated', undefined],
    ['at most, above', atLeast(1500), under(1600), 'not evaluated', undefined],
    ['at most, on the limit', atLeast(1500), under(1500), 'does not conform', undefined],
    ['at most, below', atLeast(1500), under(1400), 'does not conform', undefined],
    ['between, above', atLeast(1500), span(1500, 1550), 'conforms', 0],
    ['between, across', atLeast(1500), span(1490, 1550), 'not evaluated', undefined],
    ['between, below', atLeast(1500), span(1400, 1450), 'does not conform', -100],
    ['between, up to the limit', atLeast(1500), span(1400, 1500), 'does not conform', -100],

    ['exact below an upper limit', atMost(80), exact(79), 'conforms', 1],
    ['exact on an upper limit', atMost(80), exact(80), 'conforms', 0],
    ['exact above an upper limit', atMost(80), exact(81), 'does not conform', -1],
    ['at least, above an upper limit', atMost(80), held(81), 'does not conform', undefined],
    ['at least, on an upper limit', atMost(80), held(80), 'not evaluated', undefined],
    ['at least, below an upper limit', atMost(80), held(10), 'not evaluated', undefined],
    ['at most, on an upper limit', atMost(80), under(80), 'conforms', 0],
    ['at most, above an upper limit', atMost(80), under(81), 'not evaluated', undefined],
    ['between, below an upper limit', atMost(80), span(70, 80), 'conforms', 0],
    ['between, across an upper limit', atMost(80), span(70, 90), 'not evaluated', undefined],
    ['between, above an upper limit', atMost(80), span(81, 90), 'does not conform', -10],

    ['exact inside', between(10, 12), exact(10.5), 'conforms', 0.5],
    ['exact on either end', between(10, 12), exact(12), 'conforms', 0],
    ['exact below both', between(10, 12), exact(9), 'does not conform', -1],
    ['exact above both', between(10, 12), exact(13), 'does not conform', -1],
    ['at least, inside', between(10, 12), held(11), 'not evaluated', undefined],
    ['at least, above both', between(10, 12), held(12.5), 'does not conform', undefined],
    ['at least, below both', between(10, 12), held(9), 'not evaluated', undefined],
    ['at most, inside', between(10, 12), under(11), 'not evaluated', undefined],
    ['at most, below both', between(10, 12), under(9), 'does not conform', undefined],
    ['between, inside', between(10, 12), span(10.5, 11), 'conforms', 0.5],
    ['between, wider than the limits', between(10, 12), span(9, 13), 'not evaluated', undefined],
    ['between, across one end', between(10, 12), span(11, 13), 'not evaluated', undefined],
  ])('%s', (_, limit, value, outcome, margin) => {
    const verdict = judge(limit, value);
    expect(verdict).toMatchObject({ outcome, external: false, guardBand: 0 });
    if (margin === undefined) expect(verdict).not.toHaveProperty('margin');
    else expect(verdict.margin).toBeCloseTo(margin, 9);
    if (outcome === 'not evaluated') expect(verdict.possibleIf).toBeTruthy();
  });

  it('says that a specimen short of the limit did not break there', () => {
    expect(judge(atLeast(1500), held(1200))).toMatchObject({
      because: 'the specimen held 1 200 kPa and did not break there, while the limit asks for at least 1 500 kPa',
      possibleIf: 'a specimen is loaded until it breaks, or to at least 1 500 kPa',
    });
  });

  it('passes on why there is no value', () => {
    expect(judge(atLeast(1500), notEvaluated('no examination is recorded', 'a person examines it'))).toMatchObject({
      outcome: 'not evaluated',
      because: 'no examination is recorded',
      possibleIf: 'a person examines it',
    });
  });
});

describe('one value against one limit, guarded rule', () => {
  // ILAC-G8:09/2019, 4.2.2: AL = TL + w for a lower limit, TL - w for an upper one, w = r U; two outcomes.
  it.each<[string, Limit, CharacteristicValue, string, { lower?: number; upper?: number }]>([
    ['on the acceptance limit', atLeast(1500, 1), exact(1514), 'conforms', { lower: 1514 }],
    ['between limit and acceptance limit', atLeast(1500, 1), exact(1513.9), 'does not conform', { lower: 1514 }],
    ['half the band', atLeast(1500, 0.5), exact(1507), 'conforms', { lower: 1507 }],
    ['at least, inside the band', atLeast(1500, 1), held(1505), 'not evaluated', { lower: 1514 }],
    ['at least, beyond the band', atLeast(1500, 1), held(1514), 'conforms', { lower: 1514 }],
    ['at most, inside the band', atLeast(1500, 1), under(1505), 'does not conform', { lower: 1514 }],
    ['upper limit', atMost(80, 1), exact(66), 'conforms', { upper: 66 }],
    ['upper limit, inside the band', atMost(80, 1), exact(67), 'does not conform', { upper: 66 }],
    ['between', between(0, 100, 1), exact(86), 'conforms', { lower: 14, upper: 86 }],
    ['between, inside a band', between(0, 100, 1), exact(5), 'does not conform', { lower: 14, upper: 86 }],
  ])('%s', (_, limit, value, outcome, acceptance) => {
    expect(judge(limit, value, 14)).toMatchObject({ outcome, acceptance });
  });

  it('is not evaluated where no uncertainty is stated', () => {
    expect(judge(atLeast(1500, 1), exact(1842))).toMatchObject({
      outcome: 'not evaluated',
      because: expect.stringContaining('needs the expanded uncertainty U'),
      possibleIf: expect.stringContaining('uncertainty budget'),
    });
  });

  it('accepts nothing between two limits closer than their bands, and refuses only what lies outside', () => {
    expect(judge(between(0, 20, 1), exact(10), 14)).toMatchObject({
      outcome: 'not evaluated',
      because: expect.stringContaining('leave no value'),
    });
    expect(judge(between(0, 20, 1), exact(21), 14)).toMatchObject({ outcome: 'does not conform' });
  });

  it('measures the margin to the limit, not to the acceptance limit', () => {
    expect(judge(atLeast(1500, 1), exact(1510), 14)).toMatchObject({ outcome: 'does not conform', margin: 10 });
  });
});

describe('units and words', () => {
  // NIST SP 811 (2008), appendix B: 1 psi = 6.894757 kPa.
  it('turns the limit into the unit of the result', () => {
    const verdict = judge(atLeast(218, undefined, '[psi]'), exact(1503.1));
    expect(verdict.limitValue.lower).toBeCloseTo(1503.057, 3);
    expect(verdict).toMatchObject({ outcome: 'conforms', unit: 'kPa' });
    expect(verdict.sentence).toContain('At least 218 psi (1 503 kPa; BP-INT rev. 2).');
  });

  it('turns a limit on a difference without the zero point', () => {
    const limit: Limit = { ...common, bound: 'at most', value: 90, unit: '[degF]', decisionRule: { rule: 'simple' } };
    const rise: Result = { ...result(exact(49)), unit: 'K' };
    expect(judgeValue({ limit, result: rise, specimen: '1', difference: true }).limitValue.upper).toBe(50);
  });

  it('calls a limit from outside external', () => {
    const limit: Limit = { ...atLeast(1500), basis: 'governing body' };
    expect(judge(limit, exact(1600)).external).toBe(true);
  });

  it('says the result, the limit, the rule and the outcome', () => {
    expect(judge(atLeast(1500, 1), exact(1842.3), 14).sentence).toBe(
      'Burst pressure of specimen 0417: 1 842 kPa, U = 14 kPa (k = 2). At least 1 500 kPa (BP-INT rev. 2). Rule: accepted when the result minus U is at or above the limit. Conforms.',
    );
  });

  it('never prints a value on the wrong side of its limit', () => {
    expect(judge(atLeast(1500), exact(1499.96), 14).sentence).toContain('0417: 1 499.96 kPa');
  });
});
