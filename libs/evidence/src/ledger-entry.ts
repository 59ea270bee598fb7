import { hash } from 'node:crypto';
import { z } from 'zod';
import { canonicalJson, parseCanonicalJson } from './canonical-json.js';
import type { Digest } from './digest.js';

const HexDigest = z.string().regex(/^[0-9a-f]{64}$/, 'expected a SHA-256 digest: 64 lower-case hexadecimal digits');

/** Anything JSON holds: what is read was JSON, and what cannot be written as it `canonicalJson` refuses. */
const Json = z.custom<z.infer<ReturnType<typeof z.json>>>();

/** One row that a change wrote. */
const LedgerRow = z.strictObject({
  table: z.string().min(1),
  id: z.string().min(1),
  /** Of the row's columns as the database holds them, so that a later alteration shows. */
  digest: HexDigest,
  /** What the row is a version of, where it is one. */
  record: z.string().min(1).optional(),
  version: z.int().min(1).optional(),
  /** Only what differs from the version before, as it was and as it is; a first version has no before. */
  before: z.record(z.string(), Json).optional(),
  after: z.record(z.string(), Json),
});
export type LedgerRow = z.infer<typeof LedgerRow>;

/** Who did what, when and why in a lab, and which rows that wrote. */
export const LedgerEntry = z.strictObject({
  id: z.string().min(1),
  lab: z.string().min(1),
  /** 1, 2, 3 ... without gap within a lab. The order of entries is this, never the clock's. */
  sequence: z.int().min(1),
  /** The hash of the entry before; 64 zeros in a lab's first. */
  previous: HexDigest,
  /** UTC, to the millisecond. */
  at: z.iso.datetime({ precision: 3 }),
  /** The person, or the program standing in for one. */
  by: z.string().min(1),
  action: z.string().min(1),
  reason: z.string().min(1).optional(),
  rows: z.array(LedgerRow).min(1),
});
export type LedgerEntry = z.infer<typeof LedgerEntry>;

/** Stands where a lab's first entry has no entry before it. */
export const NO_ENTRY: Digest = '0'.repeat(64);

const FIRST_LINE = 'breakbook ledger entry 1';

/**
 * Writes an entry as the text that is hashed, stored and handed to an auditor:
 *
 *     breakbook ledger entry 1
 *     {"action":"run recorded","at":"2031-03-04T09:12:44.105Z","by":"…","id":"…","lab":"…","previous":"…","rows":[…],"sequence":17}
 *
 * Two lines, each ended by one line feed (U+000A), in UTF-8 without byte order mark. The first names
 * the format and its version, so that a reader of a later format knows this one. The second is a
 * `LedgerEntry` in the canonical form of RFC 8785, so that an entry has one text and no other.
 */
export function formatEntry(entry: LedgerEntry): string {
  return `${FIRST_LINE}\n${canonicalJson(LedgerEntry.parse(entry))}\n`;
}

/**
 * The text of an entry whose place in the chain is not known yet, in three pieces: the hash of the entry before goes
 * behind the first, its own number behind the second. Who holds the head of the chain has only to put them together.
 */
export function entryAround(content: Omit<LedgerEntry, 'sequence' | 'previous'>): [string, string, string] {
  const text = formatEntry({ ...content, sequence: 1, previous: NO_ENTRY });
  // Canonical JSON sorts members: only texts come before `previous`, in which a quotation mark has a backslash before
  // it, and nothing comes after `sequence`.
  const previous = text.indexOf(PREVIOUS) + PREVIOUS.length;
  const end = text.length - END.length;
  return [text.slice(0, previous), text.slice(previous + NO_ENTRY.length, end - 1), text.slice(end)];
}

const PREVIOUS = ',"previous":"';
const END = '}\n';

/** Reads what `formatEntry` wrote, and nothing else. */
export function parseEntry(text: string): LedgerEntry {
  const [first, body, rest, ...more] = text.split('\n');
  if (first !== FIRST_LINE || body === undefined || rest !== '' || more.length > 0) {
    throw new Error(
      `A ledger entry is two lines, the first "${FIRST_LINE}"; found one that begins "${text.slice(0, 40)}".`,
    );
  }
  return LedgerEntry.parse(parseCanonicalJson(body));
}

/**
 * The hash by which the next entry names this one:
 *
 *     SHA-256(0x00 ‖ text of the entry as UTF-8)
 *
 * This is the leaf hash of RFC 9162, section 2.1.1, so the entries of a ledger can be the leaves of
 * a Merkle tree as they stand; the leading byte keeps a leaf from being taken for an inner node.
 */
export function entryHash(text: string): Digest {
  // U+0000 is the byte 0x00 in UTF-8.
  return hash('sha256', `\0${text}`);
}
