import { createPrivateKey, createPublicKey, generateKeyPairSync, type KeyObject } from 'node:crypto';
import type { NoteKey } from '@breakbook/evidence';
import { KeysUnsafe, keptKey } from './key-files.js';

/** A lab's key for the checkpoints of its ledger. */
export interface LedgerKey extends NoteKey {
  privateKey: KeyObject;
}

/**
 * Keys that sign the checkpoints of ledgers: Ed25519, one file a lab in a folder outside the database, which its owner
 * alone may enter. Made when first asked for; a key of the lab's own is put there beforehand, as PKCS #8 in PEM.
 */
export class LedgerKeys {
  readonly #known = new Map<string, LedgerKey>();

  constructor(private readonly folder: string) {}

  of(labId: string): LedgerKey {
    const known = this.#known.get(labId);
    if (known) return known;
    const privateKey = this.#privateKey(labId);
    const key = { name: ledgerOrigin(labId), privateKey, publicKey: createPublicKey(privateKey) };
    this.#known.set(labId, key);
    return key;
  }

  #privateKey(labId: string): KeyObject {
    const { text, file } = keptKey(this.folder, `ledger-${labId}.pem`, () =>
      String(generateKeyPairSync('ed25519').privateKey.export({ type: 'pkcs8', format: 'pem' })),
    );
    const key = createPrivateKey(text);
    if (key.asymmetricKeyType !== 'ed25519')
      throw new KeysUnsafe(`${file} holds a key for ${key.asymmetricKeyType}; the ledger is signed with Ed25519.`);
    return key;
  }
}

/** What a lab's ledger is called in its checkpoints, and its key beside them. */
export function ledgerOrigin(labId: string): string {
  return `breakbook-ledger/${labId}`;
}
