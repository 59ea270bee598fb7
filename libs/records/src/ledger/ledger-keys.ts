import { createPrivateKey, createPublicKey, generateKeyPairSync, type KeyObject } from 'node:crypto';
import fs from 'node:fs';
import path from 'node:path';
import { type NoteKey } from '@breakbook/evidence';

/** A lab's key for the checkpoints of its ledger. */
export interface LedgerKey extends NoteKey {
  privateKey: KeyObject;
}

/** A folder or file of keys that others could read or change. */
export class KeysUnsafe extends Error {}

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
    fs.mkdirSync(this.folder, { recursive: true, mode: 0o700 });
    requireOwn(this.folder);
    const file = path.join(this.folder, `ledger-${labId}.pem`);
    if (!fs.existsSync(file)) makeKey(file);
    requireOwn(file);
    const key = createPrivateKey(fs.readFileSync(file));
    if (key.asymmetricKeyType !== 'ed25519')
      throw new KeysUnsafe(`${file} holds a key for ${key.asymmetricKeyType}; the ledger is signed with Ed25519.`);
    return key;
  }
}

/** What a lab's ledger is called in its checkpoints, and its key beside them. */
export function ledgerOrigin(labId: string): string {
  return `breakbook-ledger/${labId}`;
}

/** Written beside its place first, so that a process killed half way leaves no half key. */
function makeKey(file: string): void {
  const { privateKey } = generateKeyPairSync('ed25519');
  const beside = `${file}.${process.pid}`;
  const handle = fs.openSync(beside, 'wx', 0o600);
  try {
    fs.writeSync(handle, String(privateKey.export({ type: 'pkcs8', format: 'pem' })));
    fs.fsyncSync(handle);
  } finally {
    fs.closeSync(handle);
  }
  try {
    fs.linkSync(beside, file);
  } catch (error) {
    // Another process made it in the same moment; that one holds.
    if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error;
  } finally {
    fs.rmSync(beside);
  }
}

function requireOwn(place: string): void {
  const { mode, uid } = fs.statSync(place);
  if ((mode & 0o077) !== 0 || (process.getuid && uid !== process.getuid()))
    throw new KeysUnsafe(
      `${place} holds keys and is not its owner's alone (owner ${uid}, mode ${(mode & 0o777).toString(8)}). ` +
        'Take every right on it from group and others, and give it to the user who runs Breakbook.',
    );
}
