import { canonicalJson } from '@breakbook/evidence';
import type { ValueTransformer } from 'typeorm';

/** Content that a schema of the vocabulary describes: checked when it is written, trusted when it is read. */
export function checkedBy(schema: { parse(value: unknown): unknown }): ValueTransformer {
  return {
    to: (value: unknown) => (value === undefined ? value : schema.parse(value)),
    from: (value: unknown) => value,
  };
}

/**
 * Content that was computed: it must come back exactly as it went in. JSON would turn a NaN into null and a typed array
 * into an object, without a word.
 */
export const computed: ValueTransformer = {
  to: (value: unknown) => {
    if (value !== undefined) canonicalJson(value);
    return value;
  },
  from: (value: unknown) => value,
};
