import type { KeyObject } from 'node:crypto';
import { type Digest, isDigest } from '../digest.js';
import { type NoteKey, openNote, signNote } from '../signed-note.js';

const FIRST_LINE = 'breakbook package 1';

/**
 * Seals a package: a signed note by the key of the lab's ledger over the digest of `datapackage.json`, which holds the
 * digests of all other files. Its first line is never the origin of a checkpoint, so neither can be taken for the other.
 *
 *     breakbook package 1
 *     sha256:<digest of datapackage.json>
 */
export function sealPackage(descriptor: Digest, key: { name: string; privateKey: KeyObject }): string {
  return signNote(`${FIRST_LINE}\nsha256:${descriptor}\n`, key);
}

/** The digest that a seal names, where this key signed it. Throws where it did not. */
export function openSeal(seal: string, key: NoteKey): Digest {
  const [first, named = '', ...rest] = openNote(seal, key).split('\n');
  const digest = named.replace(/^sha256:/, '');
  if (first !== FIRST_LINE || rest.join('') !== '' || named === digest || !isDigest(digest))
    throw new Error(`A seal is two lines, the first "${FIRST_LINE}", the second a SHA-256.`);
  return digest;
}
