import { type Digest, digestOf, sha256 } from '@breakbook/evidence';

/** A row as the driver gives it: columns by their names in the database. */
export type DriverRow = Record<string, unknown>;

/**
 * A row as JSON: times as UTC to the millisecond, bytes as their digest, columns without value left out. Because they
 * are left out, a column that a later migration adds changes nothing for the rows that were there before it.
 */
export function rowContent(row: DriverRow): Record<string, unknown> {
  return Object.fromEntries(
    Object.entries(row)
      .filter(([, value]) => value !== null)
      .map(([column, value]) => [column, columnContent(value)]),
  );
}

function columnContent(value: unknown): unknown {
  if (value instanceof Date) return value.toISOString();
  if (value instanceof Uint8Array) return { sha256: sha256(value) };
  return value;
}

/** The digest by which the ledger names a row; `rowContent` in the canonical form of RFC 8785. */
export function rowDigest(row: DriverRow): Digest {
  return digestOf(rowContent(row));
}
