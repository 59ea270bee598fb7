import { createPrivateKey, generateKeyPairSync } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { openCheckpoint, readCheckpoint, signCheckpoint } from './checkpoint.js';
import { sha256 } from './digest.js';
import { formatNoteKey, openNote, parseNoteKey, signNote } from './signed-note.js';

/**
 * The worked example of the signed-note format: the documentation of Go's package golang.org/x/mod/sumdb/note, from
 * memory; it bears itself out, since a wrong letter would not verify.
 */
const KEY = 'PeterNeumann+c74f20a3+ARpc2QcUPDhMQegwxbzhKqiBfsVkmqq/LDE4izWy10TW';
const SEED = 'gQoUAtUUbI2E8kQzMPVAgOv5juF9nHT2JS/F1ccoMXM=';
const TEXT = "If you think cryptography is the answer to your problem,\nthen you don't know what your problem is.\n";
const NOTE = `${TEXT}
\u2014 PeterNeumann x08go/ZJkuBS9UG/SffcvIAQxVBtiFupLLr8pAcElZInNIuGUgYN1FFYC2pZSNXgKvqfqdngotpRZb6KE6RyyBwJnAM=
`;

/** An Ed25519 private key from its seed, by the form of RFC 8410. */
function privateKeyOf(seed: string) {
  const head = Buffer.from('302e020100300506032b657004220420', 'hex');
  return createPrivateKey({ key: Buffer.concat([head, Buffer.from(seed, 'base64')]), format: 'der', type: 'pkcs8' });
}

describe('a signed note', () => {
  const key = parseNoteKey(KEY);

  it('is opened as published', () => {
    expect(openNote(NOTE, key)).toBe(TEXT);
    expect(formatNoteKey(key)).toBe(KEY);
  });

  it('is signed as published, letter by letter', () => {
    expect(signNote(TEXT, { name: 'PeterNeumann', privateKey: privateKeyOf(SEED) })).toBe(NOTE);
  });

  it('is not opened with any letter changed', () => {
    for (let at = 0; at < NOTE.length; at++) {
      const altered = NOTE.slice(0, at) + String.fromCharCode(NOTE.charCodeAt(at) ^ 1) + NOTE.slice(at + 1);
      expect(() => openNote(altered, key), `letter ${at}`).toThrow();
    }
    for (const altered of [NOTE.slice(0, -1), `${NOTE}\n`, `${NOTE}x\n`, NOTE.replace('\n\n', '\n'), ''])
      expect(() => openNote(altered, key)).toThrow();
  });

  it('is opened by its key among those of others, and not by another', () => {
    const other = generateKeyPairSync('ed25519');
    const line = signNote(TEXT, { name: 'witness.example', privateKey: other.privateKey }).slice(TEXT.length + 1);
    expect(openNote(NOTE + line, key)).toBe(TEXT);
    expect(openNote(NOTE + line, { name: 'witness.example', publicKey: other.publicKey })).toBe(TEXT);
    expect(() => openNote(NOTE, { name: 'PeterNeumann', publicKey: other.publicKey })).toThrow(/no signature/);
  });

  it.each(['', 'no line feed', 'a tab\there\n', 'half a pair \ud800\n'])('is not made of %j', (text) => {
    expect(() => signNote(text, { name: 'a', privateKey: privateKeyOf(SEED) })).toThrow(/text of a note/);
  });

  it('is signed with Ed25519 and nothing else, under a name without blanks', () => {
    const { privateKey } = generateKeyPairSync('ec', { namedCurve: 'P-256' });
    expect(() => signNote(TEXT, { name: 'a', privateKey })).toThrow(/Ed25519/);
    for (const name of ['', 'two words', 'plus+sign'])
      expect(() => signNote(TEXT, { name, privateKey: privateKeyOf(SEED) })).toThrow(/cannot name a key/);
  });

  it.each([
    KEY.replace('c74f20a3', 'c74f20a4'),
    KEY.replace('+AR', '+AS'),
    KEY.slice(0, -2),
    `${KEY} `,
    'PeterNeumann',
  ])('has no key %s', (text) => {
    expect(() => parseNoteKey(text)).toThrow();
  });
});

describe('a checkpoint', () => {
  const { privateKey, publicKey } = generateKeyPairSync('ed25519');
  const origin = 'breakbook-ledger/0198c2f0';
  const key = { name: origin, publicKey };
  const checkpoint = { origin, size: 1234, root: sha256('root') };
  const note = signCheckpoint(checkpoint, privateKey);

  it('is three lines under a signature', () => {
    expect(note.split('\n').slice(0, 4)).toEqual([
      origin,
      '1234',
      Buffer.from(checkpoint.root, 'hex').toString('base64'),
      '',
    ]);
    expect(openCheckpoint(note, key)).toEqual(checkpoint);
    expect(readCheckpoint(note)).toEqual(checkpoint);
  });

  it('keeps what a later format adds below its lines', () => {
    const text = `${note.split('\n').slice(0, 3).join('\n')}\nan extension\n`;
    expect(openCheckpoint(signNote(text, { name: origin, privateKey }), key)).toEqual(checkpoint);
  });

  it.each([
    ['another origin than its key', 'another-ledger\n5\n'],
    ['a size with a sign', `${origin}\n+5\n`],
    ['a size with a zero before it', `${origin}\n05\n`],
    ['no size', `${origin}\n\n`],
  ])('is refused with %s', (_, head) => {
    const text = `${head}${Buffer.from(checkpoint.root, 'hex').toString('base64')}\n`;
    expect(() => openCheckpoint(signNote(text, { name: origin, privateKey }), key)).toThrow();
  });

  it('is refused with a root of another length', () => {
    expect(() => openCheckpoint(signNote(`${origin}\n5\nAAAA\n`, { name: origin, privateKey }), key)).toThrow(
      /three lines/,
    );
  });
});
