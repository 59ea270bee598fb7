import type { Generator } from './generator.js';

/** `n` numbers between 0 and 1 drawn at random and put in order, the smallest first. */
export function sortedUniforms(n: number, { uniform }: Generator): Float64Array {
  return Float64Array.from({ length: n }, uniform).sort();
}
