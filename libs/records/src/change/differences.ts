import { canonicalJson, type LedgerRow, sha256 } from '@breakbook/evidence';
import { type DriverRow, rowContent } from './row-digest.js';

/** What the entry says of a row otherwise. */
const SAID_ELSEWHERE = new Set(['lab_id', 'id', 'person_id', 'at', 'record_id', 'version', 'reason']);

/** A longer value stands in the ledger by its digest; the row itself has it in full. */
const LONGEST_VALUE = 500;

/**
 * What a row says, beside the version before it: only what differs, by column, or for a column of JSON by its members,
 * named `content/mass`.
 */
export function differences(before: DriverRow | undefined, after: DriverRow): Pick<LedgerRow, 'before' | 'after'> {
  const now = flattened(after);
  if (before === undefined) return { after: summary(now, [...now.keys()]) };
  const then = flattened(before);
  const changed = [...new Set([...then.keys(), ...now.keys()])].filter(
    (name) => canonicalJson(then.get(name) ?? null) !== canonicalJson(now.get(name) ?? null),
  );
  return { before: summary(then, changed), after: summary(now, changed) };
}

function flattened(row: DriverRow): Map<string, unknown> {
  const flat = new Map<string, unknown>();
  for (const [column, value] of Object.entries(rowContent(row))) {
    if (SAID_ELSEWHERE.has(column)) continue;
    if (typeof value === 'object' && value !== null && !Array.isArray(value)) {
      for (const [member, part] of Object.entries(value)) flat.set(`${column}/${member}`, part);
    } else {
      flat.set(column, value);
    }
  }
  return flat;
}

function summary(values: Map<string, unknown>, names: string[]): LedgerRow['after'] {
  const named = names.filter((name) => values.has(name)).map((name) => [name, shortened(values.get(name))]);
  return Object.fromEntries(named) as LedgerRow['after'];
}

function shortened(value: unknown): unknown {
  const text = canonicalJson(value);
  return text.length <= LONGEST_VALUE ? value : { sha256: sha256(text) };
}
