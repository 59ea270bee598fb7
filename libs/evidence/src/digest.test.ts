import { describe, expect, it } from 'vitest';
import { digestOf, isDigest, sha256, sha256OfChunks } from './digest.js';

// FIPS 180-2, appendix B.1 to B.3; the same messages and digests are the SHA-256 examples NIST publishes
// for FIPS 180-4.
const ONE_BLOCK = 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad';
const TWO_BLOCKS = '248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1';
const MILLION_A = 'cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0';

describe('sha256', () => {
  it.each([
    ['abc', ONE_BLOCK],
    ['abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq', TWO_BLOCKS],
    ['a'.repeat(1_000_000), MILLION_A],
  ])('gives the published digest of %.20s', (message, digest) => {
    expect(sha256(message)).toBe(digest);
    expect(sha256(Buffer.from(message))).toBe(digest);
  });
});

describe('sha256OfChunks', () => {
  it('gives the published digest of a million letters that come in pieces', async () => {
    async function* pieces() {
      for (let piece = 0; piece < 1000; piece += 1) yield Buffer.from('a'.repeat(1000));
    }
    await expect(sha256OfChunks(pieces())).resolves.toEqual({ digest: MILLION_A, size: 1_000_000 });
  });
});

describe('digestOf', () => {
  it('is the digest of the canonical form', () => {
    expect(digestOf({ b: [1.0], a: 'x' })).toBe(sha256('{"a":"x","b":[1]}'));
  });
});

describe('isDigest', () => {
  it('takes 64 lower-case hexadecimal digits and nothing else', () => {
    expect(isDigest(ONE_BLOCK)).toBe(true);
    for (const other of [ONE_BLOCK.toUpperCase(), ONE_BLOCK.slice(1), `${ONE_BLOCK}\n`, '']) {
      expect(isDigest(other)).toBe(false);
    }
  });
});
