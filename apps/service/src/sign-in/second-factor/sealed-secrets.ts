import { createCipheriv, createDecipheriv, randomBytes } from 'node:crypto';
import { KeysUnsafe, keptKey } from '@breakbook/records';

const CIPHER = 'aes-256-gcm';
const NONCE = 12;
const TAG = 16;

/**
 * Secrets that must be read again, such as those of code generators, as the database keeps them: sealed with a key that
 * lies outside it, so that a copy of the database opens nothing. Each is bound to whose it is (AES-256-GCM, NIST SP
 * 800-38D), so that one cannot be laid into another's place.
 */
export class SealedSecrets {
  #key: Buffer | undefined;

  constructor(private readonly folder: string) {}

  seal(secret: Uint8Array, whose: string): string {
    const nonce = randomBytes(NONCE);
    const cipher = createCipheriv(CIPHER, this.#found(), nonce).setAAD(Buffer.from(whose));
    const sealed = Buffer.concat([cipher.update(secret), cipher.final()]);
    return Buffer.concat([nonce, cipher.getAuthTag(), sealed]).toString('base64');
  }

  /** The secret; undefined where it was sealed with another key, for somebody else, or altered. */
  open(kept: string, whose: string): Uint8Array | undefined {
    const bytes = Buffer.from(kept, 'base64');
    const opened = createDecipheriv(CIPHER, this.#found(), bytes.subarray(0, NONCE), { authTagLength: TAG })
      .setAAD(Buffer.from(whose))
      .setAuthTag(bytes.subarray(NONCE, NONCE + TAG));
    try {
      return Buffer.concat([opened.update(bytes.subarray(NONCE + TAG)), opened.final()]);
    } catch {
      return undefined;
    }
  }

  #found(): Buffer {
    if (this.#key) return this.#key;
    const { text, file } = keptKey(this.folder, 'second-factors.key', () => randomBytes(32).toString('base64'));
    const key = Buffer.from(text.trim(), 'base64');
    if (key.length !== 32) throw new KeysUnsafe(`${file} must hold 32 bytes in base64; it holds ${key.length}.`);
    this.#key = key;
    return key;
  }
}
