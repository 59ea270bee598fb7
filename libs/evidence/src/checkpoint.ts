import type { KeyObject } from 'node:crypto';
import type { Digest } from './digest.js';
import { type NoteKey, openNote, parseNote, signNote } from './signed-note.js';

/** How far a ledger had grown: kept elsewhere, it shows later that nothing was cut off or written anew. */
export interface Checkpoint {
  /** Of which ledger: also the name of the key that signs it. */
  origin: string;
  /** How many entries, and the root of the Merkle tree over them. */
  size: number;
  root: Digest;
}

/**
 * A checkpoint as a signed note: three lines, origin, size in decimal and root in base64.
 *
 * Source: the open checkpoint format of transparency logs, c2sp.org/tlog-checkpoint, version 1.
 */
export function signCheckpoint({ origin, size, root }: Checkpoint, privateKey: KeyObject): string {
  const text = `${origin}\n${size}\n${Buffer.from(root, 'hex').toString('base64')}\n`;
  return signNote(text, { name: origin, privateKey });
}

/** A checkpoint that this key signed. Throws where it did not, or where the note is no checkpoint. */
export function openCheckpoint(note: string, key: NoteKey): Checkpoint {
  const checkpoint = fromText(openNote(note, key));
  if (checkpoint.origin !== key.name)
    throw new Error(`The checkpoint is of ${checkpoint.origin}, the key of ${key.name}.`);
  return checkpoint;
}

/** What a checkpoint says, whoever signed it. */
export function readCheckpoint(note: string): Checkpoint {
  return fromText(parseNote(note).text);
}

function fromText(text: string): Checkpoint {
  const [origin, size, root, ...rest] = text.split('\n');
  const bytes = Buffer.from(root ?? '', 'base64');
  // Extension lines may follow; a later format may have them, and they say nothing about size and root.
  if (
    !origin ||
    !/^(0|[1-9]\d{0,14})$/.test(size ?? '') ||
    bytes.length !== 32 ||
    bytes.toString('base64') !== root ||
    rest.length === 0
  )
    throw new Error('A checkpoint is three lines: origin, number of entries, and root in base64.');
  return { origin, size: Number(size), root: bytes.toString('hex') };
}
