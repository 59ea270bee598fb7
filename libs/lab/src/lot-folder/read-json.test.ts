import { describe, expect, it } from 'vitest';
import { Refusal } from '../problems.js';
import { readJson } from './read-json.js';

const read = (text: string) => readJson(new TextEncoder().encode(text), 'plan.json');

function refusalOf(text: string): Refusal {
  try {
    read(text);
  } catch (error) {
    if (error instanceof Refusal) return error;
    throw error;
  }
  throw new Error('was taken');
}

// RFC 8259 leaves doubled names to the reader ("SHOULD be unique"); RFC 8785 (3.1) refuses them.
describe('readJson', () => {
  it('reads a document', () => {
    expect(read(' {"a": [1, 2.5e-3, "x\\"y", true, null, {"b": []}], "c": {}} ')).toEqual({
      a: [1, 0.0025, 'x"y', true, null, { b: [] }],
      c: {},
    });
  });

  it('points at the line of a syntax error', () => {
    expect(refusalOf('{\n "a": 1,\n "b": }').problems[0]).toMatchObject({
      code: 'json.syntax',
      file: 'plan.json',
      line: 3,
    });
    expect(refusalOf('{"a": 1').problems[0]).toMatchObject({ code: 'json.syntax' });
    expect(refusalOf('{"a": NaN}').problems[0]).toMatchObject({ code: 'json.syntax' });
    expect(refusalOf('{} {}').problems[0]).toMatchObject({ code: 'json.syntax' });
  });

  it('refuses a key that stands twice, also when one of them is escaped', () => {
    expect(refusalOf('{"limit": 1,\n "l\\u0069mit": 2}').problems[0]).toMatchObject({
      code: 'json.duplicate-key',
      line: 2,
    });
  });

  it('refuses a number larger than a double', () => {
    expect(refusalOf('{"a": 1e400}').code).toBe('number.not-finite');
  });

  it('refuses more than 64 levels', () => {
    expect(refusalOf(`${'['.repeat(65)}${']'.repeat(65)}`).code).toBe('json.too-deep');
    expect(() => read(`${'['.repeat(64)}1${']'.repeat(64)}`)).not.toThrow();
  });

  it('refuses bytes that are not UTF-8', () => {
    expect(() => readJson(new Uint8Array([0x7b, 0xff, 0x7d]), 'lot.json')).toThrow('lot.json is not UTF-8');
  });
});
