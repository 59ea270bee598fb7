import { createHash } from 'node:crypto';

/**
 * SHA-256 over the numbers of a table, 64 hexadecimal digits: the same for the same numbers however the file is called,
 * whatever stands above its header, how its columns are named and ordered, and how each number is written ("1.50" is 1.5).
 * Two runs of different parts never have the same.
 */
export function numbersDigest(columns: readonly ArrayLike<number>[]): string {
  const each = columns.map((values) => {
    const doubles = Float64Array.from(values);
    return createHash('sha256').update(new Uint8Array(doubles.buffer)).digest('hex');
  });
  return createHash('sha256').update(each.sort().join('\n')).digest('hex');
}
