import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { Limit } from './limits.js';
import { Specimen } from './lots.js';
import { Method } from './methods.js';
import { shown } from './problems.js';
import { Quantity, quantityOf } from './quantity.js';
import { schemaProblems } from './schema-problems.js';

function problemsOf(
  schema: { safeParse(input: unknown): { success: boolean; error?: Parameters<typeof schemaProblems>[0] } },
  input: unknown,
) {
  const parsed = schema.safeParse(input);
  return parsed.error ? schemaProblems(parsed.error, input) : [];
}

describe('schemaProblems', () => {
  it('names a missing unit as such and says that nothing is assumed', () => {
    expect(problemsOf(Quantity, { value: 8.3, unit: '' })).toMatchObject([{ code: 'unit.missing', pointer: '/unit' }]);
  });

  it('names an unknown unit, an unlike unit, and what is accepted', () => {
    expect(problemsOf(Quantity, { value: 8.3, unit: 'KPA' })).toMatchObject([{ code: 'unit.unknown', found: 'KPA' }]);
    const [unlike] = problemsOf(quantityOf('pressure'), { value: 8.3, unit: 'mm' });
    expect(unlike).toMatchObject({ code: 'unit.wrong-dimension', detail: expect.stringContaining('kPa, bar, [psi]') });
  });

  it('tells a missing field from one of another type and from one that is not known', () => {
    expect(problemsOf(Quantity, { unit: 'kPa' })).toMatchObject([{ code: 'body.missing-field', pointer: '/value' }]);
    expect(problemsOf(Quantity, { value: '8.3', unit: 'kPa' })).toMatchObject([{ code: 'body.type', found: '8.3' }]);
    expect(problemsOf(Quantity, { value: 8.3, unit: 'kPa', gauge: true })).toMatchObject([
      { code: 'body.unknown-field', pointer: '/gauge' },
    ]);
  });

  it('says what kind is needed as one says it', () => {
    const told = (schema: z.ZodType, input: unknown) => problemsOf(schema, input)[0]?.detail;
    expect(told(z.strictObject({ one: z.strictObject({}) }), {})).toBe(
      '/one: an object is needed here and nothing was found.',
    );
    expect(told(z.array(z.string()), 'text')).toBe('the document: must be an array.');
    expect(told(z.string(), 7)).toBe('the document: must be a string.');
  });

  it('asks for a serial or the reason why there is none', () => {
    const specimen = {
      specimen: '0417',
      lot: 'L1',
      origin: 'drawn at random',
      receivedAt: '2031-03-04T09:00:00Z',
      condition: 'new',
    };
    expect(problemsOf(Specimen, specimen)).toMatchObject([
      { pointer: '/serial', detail: expect.stringContaining('reason why there is none') },
    ]);
  });

  it('refuses a limit without a unit', () => {
    const limit = { bound: 'at least', value: 1500 };
    expect(problemsOf(Limit, limit).map(({ pointer }) => pointer)).toContain('/unit');
  });

  it('refuses a day and an instant that do not exist', () => {
    const specimen = {
      specimen: '1',
      lot: 'L1',
      serial: 'S',
      origin: 'suspect',
      receivedAt: '2031-02-30T10:00:00Z',
      condition: 'new',
    };
    expect(problemsOf(Specimen, specimen)).toMatchObject([{ code: 'body.format', pointer: '/receivedAt' }]);
  });

  it('refuses a method whose failure mode counts for a characteristic it does not give', () => {
    const problems = problemsOf(Method, {
      test: 'table',
      method: 'T1',
      revision: 1,
      title: 'Table',
      basis: 'own',
      inForceFrom: '2031-01-01',
      approvedBy: 'p1',
      channels: [],
      characteristics: [
        { characteristic: 'strength', title: 'Strength', kind: 'stress', unit: 'MPa', definition: 'as keyed' },
      ],
      failureModes: [{ code: 'AA-BBB', meaning: 'broke', countsAs: { stiffness: 'failure' } }],
      minimumSpecimens: 2,
      readiness: [],
      parameters: {},
    });
    expect(problems).toMatchObject([
      { detail: expect.stringContaining('names stiffness, which is no characteristic of this method') },
    ]);
  });
});

describe('shown', () => {
  it('shows control and bidirectional characters as escapes and cuts at 100', () => {
    expect(shown('a\u202Eb\u0000')).toBe('a\\u202Eb\\u0000');
    expect(shown('x'.repeat(300))).toHaveLength(100);
  });
});
