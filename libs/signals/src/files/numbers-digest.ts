import { createHash } from 'node:crypto';

/** SHA-256 over the doubles of one column. */
export function columnDigest(values: ArrayLike<number>): string {
  const doubles = Float64Array.from(values);
  return createHash('sha256').update(new Uint8Array(doubles.buffer)).digest('hex');
}

/**
 * SHA-256 over the numbers of a table, by the digests of its columns, 64 hexadecimal digits: the same for the same
 * numbers however the file is called, whatever stands above its header, how its columns are named and ordered, and how
 * each number is written ("1.50" is 1.5). Two runs of different parts never have the same.
 */
export function numbersDigest(columnDigests: readonly string[]): string {
  return createHash('sha256').update(columnDigests.toSorted().join('\n')).digest('hex');
}
