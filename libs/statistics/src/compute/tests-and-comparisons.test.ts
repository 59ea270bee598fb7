import { isNotEvaluated } from '@breakbook/lab';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compute } from './compute.js';

const fraction = fc.oneof(fc.double({ min: 0.001, max: 0.999, noNaN: true }), fc.constantFrom(1e-9, 1 - 1e-9));
const value = fc.oneof(
  fc.integer({ min: -3, max: 12 }),
  fc.double({ min: -50, max: 50, noNaN: true }).map((drawn) => (Math.abs(drawn) < 1e-50 ? 0 : drawn)),
  fc.constantFrom(-1e50, -1e9, 1e-50, 1e9, 1e50),
);
const values = fc.array(value, { maxLength: 9 });
const groups = fc.array(values, { maxLength: 5 });
const strengths = fc.array(
  fc.oneof(fc.integer({ min: 1, max: 12 }), fc.double({ min: 40, max: 50, noNaN: true }), fc.constantFrom(1e-9, 1e9)),
  { maxLength: 9 },
);
const sample = fc.record({ exact: strengths, atLeast: strengths, atMost: strengths }, { requiredKeys: [] });
const distribution = fc.constantFrom('normal', 'lognormal', 'weibull', 'distribution-free');
const of = fc.constantFrom('one', 'all', 'mean');
const sd = fc.constantFrom(1e-9, 2, 1e9);
const maybe = <T>(inner: fc.Arbitrary<T>) => fc.option(inner, { nil: undefined });

const requests = {
  'one-way-anova': fc.record({ groups }),
  'kruskal-wallis': fc.record({ groups }),
  'k-sample-anderson-darling': fc.record({ groups, alpha: maybe(fraction) }),
  'equal-variance': fc.oneof(
    fc.record({ groups, centre: maybe(fc.constantFrom('median', 'mean')) }),
    fc.record({ groups, bartlett: fc.constant(true) }),
  ),
  'outlier-screen': fc.oneof(
    fc.record({ values, alpha: fraction, side: fc.constantFrom('lower', 'upper', 'both') }),
    fc.record({ n: fc.integer({ min: 0, max: 1000 }), alpha: fraction, side: fc.constantFrom('lower', 'both') }),
  ),
  'anderson-darling': fc.record({
    values: strengths,
    distribution: fc.constantFrom('normal', 'lognormal', 'weibull'),
  }),
  'shapiro-wilk': fc.record({ values }),
  welch: fc.record({ a: values, b: values, confidence: fraction, pooled: maybe(fc.boolean()) }),
  'variance-ratio': fc.record({ a: values, b: values }),
  'mann-whitney': fc.record({ a: values, b: values, confidence: fraction }),
  'permutation-test': fc.record({
    a: values,
    b: values,
    statistic: maybe(fc.constantFrom('mean-difference', 'rank-sum')),
    seed: maybe(fc.nat()),
    replicates: maybe(fc.integer({ min: 1, max: 100 })),
  }),
  'gehan-test': fc.record({ a: sample, b: sample }),
  'freeman-halton': fc.record({ counts: fc.array(fc.tuple(fc.nat(6), fc.nat(6)), { maxLength: 4 }) }),
  'non-inferiority': fc.record({
    a: values,
    b: values,
    better: fc.constantFrom('higher', 'lower'),
    margin: sd,
    confidence: fraction,
  }),
  'weibull-comparison': fc.record({ a: sample, b: sample }),
  'prediction-bound': fc.oneof(
    fc.record({ sample, distribution, confidence: fraction, m: fc.integer({ min: 1, max: 30 }), of }),
    fc.record({ n: fc.integer({ min: 0, max: 9 }), mean: value, sd, distribution, confidence: fraction, of }),
  ),
  'prediction-probability': fc.oneof(
    fc.record({ sample, distribution, m: fc.integer({ min: 1, max: 30 }), x: value }),
    fc.record({ known: fc.constantFrom({ shape: 3, scale: 2 }, { mean: 1, sd: 2 }), m: fc.constant(7), x: value }),
  ),
  'conformance-probability': fc.record({
    value,
    standardUncertainty: sd,
    lower: value,
    prior: maybe(fc.record({ mean: value, sd })),
  }),
  'guard-band': fc.record({ limit: value, side: fc.constant('lower'), standardUncertainty: sd, probability: fraction }),
  'acceptance-risks': fc.record({
    prior: fc.record({ mean: value, sd }),
    standardUncertainty: sd,
    tolerance: fc.record({ lower: value }),
    acceptance: fc.record({ upper: value }),
  }),
  'standard-uncertainty': fc.record({ halfWidth: sd, distribution: fc.constantFrom('rectangular', 'u-shaped') }),
  'combine-uncertainty': fc.record({
    components: fc.array(
      fc.record({ u: sd, degreesOfFreedom: maybe(sd), sensitivity: maybe(value) }, { requiredKeys: ['u'] }),
      { minLength: 2, maxLength: 4 },
    ),
    correlations: maybe(fc.constant([{ i: 0, j: 1, r: 0.5 }])),
    coverage: fraction,
  }),
  'chart-constants': fc.record({ n: fc.constantFrom(2, 3, 60, 1000) }),
  'individuals-chart': fc.record({ values, target: maybe(value), sigma: maybe(sd) }),
  'ewma-chart': fc.record({ values, target: value, sigma: sd, lambda: fraction, width: fc.constant(3) }),
  'cusum-chart': fc.record({ values, target: value, sigma: sd, k: fc.constant(0.5), h: fc.constant(5) }),
  'run-length': fc
    .record({
      chart: fc.oneof(
        fc.record({ kind: fc.constant('individuals'), width: fc.constantFrom(0.1, 3, 30) }),
        fc.record({ kind: fc.constant('ewma'), lambda: fc.constantFrom(0.05, 1), width: fc.constantFrom(0.1, 3, 30) }),
        fc.record({ kind: fc.constant('cusum'), k: fc.constantFrom(0, 0.5, 10), h: fc.constantFrom(0.1, 5, 20) }),
      ),
      sides: fc.constantFrom(1, 2),
      shifts: fc.constantFrom([], [0], [-100], [100]),
      estimatedFrom: maybe(fc.record({ lots: fc.integer({ min: 2, max: 200 }) })),
      replicates: fc.constant(2),
    })
    .map(({ replicates, estimatedFrom, ...rest }) =>
      estimatedFrom === undefined ? rest : { ...rest, estimatedFrom, replicates },
    ),
  staircase: fc.record({
    trials: fc.array(fc.record({ level: fc.integer({ min: -3, max: 3 }), broke: fc.boolean() }), { maxLength: 9 }),
    step: fc.constantFrom(1, 0.5),
  }),
  'response-curve': fc.record({
    trials: fc.array(
      fc
        .tuple(fc.oneof(fc.integer({ min: -3, max: 3 }), value), fc.nat({ max: 3 }), fc.nat({ max: 3 }))
        .map(([level, broke, held]) => ({ level, tested: broke + held, broke })),
      { maxLength: 7 },
    ),
    link: fc.constantFrom('probit', 'logit'),
    confidence: fraction,
    quantiles: maybe(fc.array(fraction, { maxLength: 2 })),
  }),
  'operating-characteristic': fc.record({
    criterion: fc.oneof(
      fc.record({ kind: fc.constant('attribute'), n: fc.integer({ min: 1, max: 40 }), c: fc.nat({ max: 5 }) }),
      fc.record({
        kind: fc.constant('variables'),
        n: fc.integer({ min: 2, max: 40 }),
        k: fc.constantFrom(-3, 0, 2, 1e6),
      }),
      fc.record({
        kind: fc.constant('tolerance-bound'),
        n: fc.integer({ min: 1, max: 40 }),
        coverage: fraction,
        confidence: fraction,
        distribution: fc.constantFrom('normal', 'lognormal', 'distribution-free'),
      }),
    ),
    fractionsBelow: fc.array(fc.oneof(fraction, fc.constantFrom(0, 1)), { maxLength: 3 }),
  }),
  'sample-size': fc.record({
    for: fc.oneof(
      fc.record({ kind: fc.constant('mean-limits'), halfWidth: sd, sd, confidence: fraction }),
      fc.record({
        kind: fc.constant('one-sample'),
        shift: sd,
        sd,
        alpha: fraction,
        power: fraction,
        sides: fc.constantFrom(1, 2),
      }),
      fc.record({
        kind: fc.constant('two-sample'),
        difference: sd,
        sd,
        alpha: fraction,
        power: fraction,
        sides: fc.constantFrom(1, 2),
      }),
      fc.record({
        kind: fc.constantFrom('variables-plan', 'attribute-plan'),
        acceptable: fc.constantFrom(1e-6, 0.01),
        producerRisk: fc.constantFrom(0.01, 0.4),
        rejectable: fc.constantFrom(0.02, 0.5, 0.999),
        consumerRisk: fc.constantFrom(0.001, 0.1),
      }),
      fc.record({
        kind: fc.constant('tolerance-bound'),
        coverage: fraction,
        confidence: fraction,
        distribution: fc.constantFrom('normal', 'lognormal', 'distribution-free'),
        meanOverLimit: fc.constantFrom(0.5, 1.1, 3, 1e6),
        cv: fc.constantFrom(1e-4, 0.05, 10),
        power: fraction,
      }),
    ),
  }),
  'weibull-demonstration-size': fc.oneof(
    fc.record({
      shape: fc.constantFrom(0.01, 5, 1000),
      reliability: fraction,
      confidence: fraction,
      n: fc.nat({ max: 50 }),
    }),
    fc.record({
      shape: fc.constantFrom(0.01, 5, 1000),
      reliability: fraction,
      confidence: fraction,
      loadRatio: fc.constantFrom(1e-6, 1, 1.3, 1e6),
      allowedFailures: maybe(fc.nat({ max: 9 })),
    }),
  ),
  equivalence: fc.record({ a: values, b: values, margin: fc.constantFrom([-1, 1], [0, 1e9]), confidence: fraction }),
  holm: fc.record({ p: fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { maxLength: 6 }), alpha: fraction }),
};

describe('tests and comparisons asked for by name', () => {
  it.each(Object.entries(requests))('%s is never at fault itself, whatever it is given', (method, inputs) => {
    fc.assert(
      fc.property(inputs as fc.Arbitrary<object>, (given) => {
        const reply = compute({ method, ...given });
        expect(reply).not.toMatchObject({ error: expect.anything() });
        expect(JSON.parse(JSON.stringify(reply))).toEqual(reply);
        if ('result' in reply) {
          expect(isNotEvaluated(reply.result)).toBe(false);
          const { p } = reply.result as { p?: unknown };
          if (typeof p === 'number') expect(p >= 0 && p <= 1).toBe(true);
        }
      }),
      { numRuns: 100 },
    );
  });
});
