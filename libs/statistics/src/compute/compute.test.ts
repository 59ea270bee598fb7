import { isNotEvaluated } from '@breakbook/lab';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { TECHNIQUES } from '../bounds/lower-tolerance-bound.js';
import { listMethods, methodSchema } from './catalogue.js';
import { compute } from './compute.js';
import { computeMethods } from './registry.js';

describe('compute', () => {
  it('answers under the name it was asked by', () => {
    expect(compute({ method: 'zero-failure-size', reliability: 0.9, confidence: 0.95 })).toMatchObject({
      method: 'zero-failure-size',
      result: { n: 29 },
    });
  });

  it('gives the reason in place of a result', () => {
    expect(compute({ method: 'weibull-fit', sample: { atLeast: [3, 4] } })).toEqual({
      method: 'weibull-fit',
      notEvaluated: { because: expect.any(String), possibleIf: expect.any(String) },
    });
  });

  it('gives only the log-likelihood where the parameters are fixed', () => {
    const reply = compute({ method: 'weibull-fit', sample: { exact: [1] }, fixed: { shape: 1, scale: 1 } });
    expect(reply).toMatchObject({ result: { n: 1, failures: 1, shape: 1, scale: 1, logLikelihood: -1 } });
    expect(reply).not.toHaveProperty('result.limits');
  });

  it.each(['weibull-fit', 'normal-fit', 'lognormal-fit'])(
    '%s shows beside it what dropping the survivors would do',
    (method) => {
      const sample = { exact: [41, 44, 46, 47], atLeast: [50, 52, 52] };
      const kept = compute({ method, sample });
      const dropped = compute({ method, sample: { exact: sample.exact } });
      if (!('result' in kept && 'result' in dropped)) throw new Error('both have a fit');
      const { withoutSurvivors } = kept.result as { withoutSurvivors: object };
      expect(dropped.result).toMatchObject(withoutSurvivors);
      expect(withoutSurvivors).toMatchObject({ n: 4, failures: 4 });
      expect(kept.result).toMatchObject({ n: 7, failures: 4 });
      expect(dropped.result).not.toHaveProperty('withoutSurvivors');
    },
  );

  it.each([
    [[], 'body.not-object', ''],
    [null, 'body.not-object', ''],
    [{}, 'body.missing-field', '/method'],
    [{ method: 7 }, 'body.type', '/method'],
    [{ method: 'no-such' }, 'body.enum', '/method'],
    [{ method: 'summary' }, 'body.missing-field', '/values'],
    [{ method: 'summary', values: ['1'] }, 'body.type', '/values/0'],
    [{ method: 'summary', values: [1], weights: [1] }, 'body.unknown-field', '/weights'],
    [{ method: 'summary', values: [1e200] }, 'body.range', '/values/0'],
    [{ method: 'zero-failure-size', reliability: 95, confidence: 0.9 }, 'body.range', '/reliability'],
    [{ method: 'weibull-fit', sample: { exact: [5, -1] } }, 'body.range', '/sample/exact/1'],
    [{ method: 'weibull-fit', sample: { exact: [5], censored: [1] } }, 'body.unknown-field', '/sample/censored'],
    [{ method: 'weibull-fit', sample: { between: [[5, 4]] } }, 'body.range', '/sample/between/0'],
    [{ method: 'binomial-bound', n: 3, failures: 4, confidence: 0.9 }, 'body.range', '/failures'],
    [{ method: 'normal-tolerance-factor', n: 9, coverage: 0.9 }, 'body.missing-field', '/confidence'],
    [{ method: 'normal-tolerance-factor', n: 9, coverage: 0.9, confidence: 0.9, k: 2 }, 'body.unknown-field', '/k'],
    [{ method: 'normal-tolerance-factor', n: 9, coverage: 0.9, k: 2, sides: 3 }, 'body.enum', '/sides'],
    [{ method: 'plotting-positions' }, 'body.missing-field', '/sample'],
    [{ method: 'convert', value: 1, from: 'kPa', to: 'K' }, 'unit.wrong-dimension', '/to'],
    [{ method: 'convert', value: 1, from: 'stone', to: 'kg' }, 'unit.unknown', '/from'],
  ])('refuses %j with %s at "%s"', (request, code, pointer) => {
    expect(compute(request)).toMatchObject({ error: { code, pointer, message: expect.stringMatching(/\w/) } });
  });

  const fraction = fc.oneof(
    fc.double({ min: 0.001, max: 0.999, noNaN: true }),
    fc.constantFrom(1e-12, 1e-6, 0.9999, 1 - 1e-9, 1 - 1e-12),
  );
  const strength = fc.oneof(
    fc.integer({ min: 1, max: 12 }),
    fc.double({ min: 40, max: 50, noNaN: true }),
    fc.constantFrom(1e-90, 1e-9, 1e9, 1e90),
  );
  const values = fc.array(strength, { maxLength: 7 });
  const sample = fc.record(
    {
      exact: values,
      atLeast: values,
      atMost: values,
      between: fc.array(
        fc.tuple(strength, fc.double({ min: 1e-9, max: 1, noNaN: true })).map(([low, by]) => [low, low * (1 + by)]),
        { maxLength: 3 },
      ),
    },
    { requiredKeys: [] },
  );
  const distribution = fc.constantFrom('normal', 'lognormal', 'weibull', 'distribution-free');
  const SIMULATED = ['calibrated', 'bootstrap'] as const;
  const technique = fc.constantFrom(...TECHNIQUES.filter((name) => !SIMULATED.some((other) => other === name)));
  const requests = fc.oneof(
    fc.record({ method: fc.constant('summary'), values }),
    fc.record({
      method: fc.constantFrom('weibull-fit', 'normal-fit', 'lognormal-fit'),
      sample,
      confidence: fraction,
      quantiles: fc.array(fraction, { maxLength: 2 }),
      at: fc.array(strength, { maxLength: 2 }),
    }),
    fc.record({
      method: fc.constant('lower-tolerance-bound'),
      sample,
      coverage: fraction,
      confidence: fraction,
      distribution,
      technique,
    }),
    fc.record({ method: fc.constant('plotting-positions'), sample }),
    fc.record({
      method: fc.constant('normal-tolerance-factor'),
      n: fc.constantFrom(2, 3, 10, 100, 1001, 1002, 1_000_000),
      coverage: fraction,
      confidence: fraction,
      sides: fc.constantFrom(1, 2),
    }),
    fc.record({
      method: fc.constant('demonstration-size'),
      reliability: fraction,
      confidence: fraction,
      allowedFailures: fc.constantFrom(0, 1, 30, 1_000_000),
      lotSize: fc.constantFrom(undefined, 1, 30, 1_000_000_000),
    }),
  );

  const simulated = fc.record({
    method: fc.constant('lower-tolerance-bound'),
    sample,
    coverage: fraction,
    confidence: fraction,
    distribution: fc.constantFrom('normal', 'lognormal', 'weibull'),
    technique: fc.constantFrom(...SIMULATED),
    replicates: fc.constant(500),
  });

  it.each([
    { kind: 'worked out', asked: requests, numRuns: 300 },
    // Each takes as long as a hundred of the others.
    { kind: 'simulated', asked: simulated, numRuns: 8 },
  ])('is never at fault itself, and never answers with what is no number: $kind', ({ asked, numRuns }) => {
    fc.assert(
      fc.property(asked as fc.Arbitrary<object>, (request) => {
        const reply = compute(request);
        expect(reply).not.toMatchObject({ error: { code: 'internal' } });
        // JSON has no word for NaN and infinity and writes null.
        expect(JSON.stringify(reply)).not.toMatch(/[:,[]null/);
        if ('result' in reply) expect(isNotEvaluated(reply.result)).toBe(false);
      }),
      { numRuns },
    );
  });
});

describe('the catalogue', () => {
  it('describes every input and every part of every result', () => {
    for (const { method, question, inputs, result, assumptions, source } of listMethods()) {
      for (const { name, description } of [...inputs, ...result]) expect(description, `${method} ${name}`).not.toBe('');
      expect(
        [question, source, ...assumptions].every((text) => text.length > 0),
        method,
      ).toBe(true);
    }
  });

  it('names no method twice', () => {
    expect(new Set(computeMethods.map(({ method }) => method)).size).toBe(computeMethods.length);
  });

  it('makes the JSON Schema from the definitions that read requests', () => {
    const { oneOf } = methodSchema() as {
      oneOf: { properties: Record<string, unknown>; required: string[]; additionalProperties: boolean }[];
    };
    expect(oneOf.map(({ properties }) => properties.method)).toEqual(
      computeMethods.map(({ method }) => ({ const: method })),
    );
    const bound = oneOf.find(
      ({ properties }) => (properties.method as { const: string }).const === 'lower-tolerance-bound',
    );
    expect(bound).toMatchObject({
      additionalProperties: false,
      required: ['method', 'sample', 'coverage', 'confidence', 'distribution'],
      properties: { coverage: { exclusiveMinimum: 0, exclusiveMaximum: 1 } },
    });
  });
});
