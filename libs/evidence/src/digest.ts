import { createHash, hash } from 'node:crypto';
import { canonicalJson } from './canonical-json.js';

/** A SHA-256 digest (FIPS 180-4) as 64 lower-case hexadecimal digits. */
export type Digest = string;

export function isDigest(text: string): text is Digest {
  return /^[0-9a-f]{64}$/.test(text);
}

/** The digest of bytes, or of text as UTF-8. */
export function sha256(content: Uint8Array | string): Digest {
  return hash('sha256', content);
}

/** The digest and the number of bytes of a content that comes in pieces, so that it need not fit in memory. */
export async function sha256OfChunks(chunks: AsyncIterable<Uint8Array>): Promise<{ digest: Digest; size: number }> {
  const whole = createHash('sha256');
  let size = 0;
  for await (const chunk of chunks) {
    whole.update(chunk);
    size += chunk.byteLength;
  }
  return { digest: whole.digest('hex'), size };
}

/** The digest of a JSON value: of its canonical form, so that the order of members does not matter. */
export function digestOf(value: unknown): Digest {
  return sha256(canonicalJson(value));
}
