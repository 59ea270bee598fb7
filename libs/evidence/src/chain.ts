import type { Digest } from './digest.js';
import { entryHash, formatEntry, type LedgerEntry, NO_ENTRY, parseEntry } from './ledger-entry.js';

/** An entry as it is stored: its text, and the hash the next one names. */
export interface StoredEntry {
  text: string;
  hash: Digest;
}

/** The entry a new one is to follow. */
export interface ChainHead {
  lab: string;
  sequence: number;
  hash: Digest;
}

/** Which part of an entry does not fit. */
export type LinkFault = 'text' | 'hash' | 'lab' | 'sequence' | 'previous';

/** The first entry of a chain that does not fit, counted from 1 as the entries were given. */
export interface BrokenChain {
  holds: false;
  position: number;
  fault: LinkFault;
  because: string;
}

export interface WholeChain {
  holds: true;
  /** The last entry; not there when the chain is empty. */
  head?: ChainHead;
}

/** Adds an entry behind `head`, or begins a lab's chain with it. */
export function linkEntry(
  head: ChainHead | undefined,
  content: Omit<LedgerEntry, 'sequence' | 'previous'>,
): StoredEntry & ChainHead {
  if (head && head.lab !== content.lab) {
    throw new Error(`An entry of lab ${content.lab} cannot follow an entry of lab ${head.lab}.`);
  }
  const sequence = (head?.sequence ?? 0) + 1;
  const text = formatEntry({ ...content, sequence, previous: head?.hash ?? NO_ENTRY });
  return { lab: content.lab, sequence, text, hash: entryHash(text) };
}

/** Does this entry follow that head? Answers the new head, or what does not fit. */
export function checkLink(
  head: ChainHead | undefined,
  stored: StoredEntry,
): { head: ChainHead; entry: LedgerEntry } | { fault: LinkFault; because: string } {
  let entry: LedgerEntry;
  try {
    entry = parseEntry(stored.text);
  } catch (error) {
    return { fault: 'text', because: `its text is not a ledger entry: ${(error as Error).message}` };
  }
  const hash = entryHash(stored.text);
  if (hash !== stored.hash) {
    return { fault: 'hash', because: `its text hashes to ${hash}, but ${stored.hash} is stored` };
  }
  if (head && entry.lab !== head.lab) {
    return { fault: 'lab', because: `it belongs to lab ${entry.lab}, the entries before it to ${head.lab}` };
  }
  const sequence = (head?.sequence ?? 0) + 1;
  if (entry.sequence !== sequence) {
    return { fault: 'sequence', because: `it has sequence ${entry.sequence}, expected ${sequence}` };
  }
  const previous = head?.hash ?? NO_ENTRY;
  if (entry.previous !== previous) {
    return { fault: 'previous', because: `it names ${entry.previous} as the entry before, which is ${previous}` };
  }
  return { head: { lab: entry.lab, sequence, hash }, entry };
}

/**
 * Is this a ledger as it was written, whole from its first entry, or from the one after `from`?
 *
 * A chain shows every entry altered, left out, put in or moved, but neither a tail cut off nor a
 * whole ledger written anew with right hashes: for those, compare its head with one kept elsewhere.
 */
export function checkChain(entries: Iterable<StoredEntry>, from?: ChainHead): WholeChain | BrokenChain {
  let head = from;
  let position = 0;
  for (const stored of entries) {
    position += 1;
    const link = checkLink(head, stored);
    if ('fault' in link) return { holds: false, position, ...link };
    head = link.head;
  }
  return head ? { holds: true, head } : { holds: true };
}
