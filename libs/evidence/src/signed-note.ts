import { createHash, createPublicKey, type KeyObject, sign, verify } from 'node:crypto';

/**
 * A text with the signatures under it, each a line of its own:
 *
 *     first line of the text
 *     its last line
 *
 *     — name-of-the-key base64(key id ‖ signature)
 *
 * The key id is the first four bytes of SHA-256(name ‖ 0x0A ‖ 0x01 ‖ public key); 0x01 stands for Ed25519 (RFC 8032).
 *
 * Source: the open signed-note format, c2sp.org/signed-note, version 1.
 */
export interface SignedNote {
  text: string;
  signatures: { name: string; keyId: string; signature: Uint8Array }[];
}

/** The public half of a key that signs notes. */
export interface NoteKey {
  /** Without blanks and plus signs. */
  name: string;
  publicKey: KeyObject;
}

const ED25519 = 1;
/** Before the 32 bytes of an Ed25519 key in its SubjectPublicKeyInfo (RFC 8410). */
const SPKI_HEAD = Buffer.from('302a300506032b6570032100', 'hex');
const DASH = '\u2014';

/** Signs a text that ends with a line feed. */
export function signNote(text: string, { name, privateKey }: { name: string; privateKey: KeyObject }): string {
  requireText(text);
  const publicKey = createPublicKey(privateKey);
  const signature = Buffer.concat([
    Buffer.from(keyIdOf({ name, publicKey }), 'hex'),
    sign(null, Buffer.from(text), privateKey),
  ]);
  return `${text}\n${DASH} ${name} ${signature.toString('base64')}\n`;
}

/** Takes a note apart. Throws where it is no note; whether its signatures are good is another question. */
export function parseNote(note: string): SignedNote {
  const split = note.lastIndexOf('\n\n');
  const text = note.slice(0, split + 1);
  const lines = note.slice(split + 2).split('\n');
  if (split < 0 || lines.pop() !== '' || lines.length === 0)
    throw new Error('A signed note is a text, a blank line, and lines of signatures, each ended by a line feed.');
  requireText(text);
  return { text, signatures: lines.map(parseSignature) };
}

function parseSignature(line: string): SignedNote['signatures'][number] {
  const [, name, encoded] = /^\u2014 ([^ +]+) ([A-Za-z0-9+/]+={0,2})$/.exec(line) ?? [];
  const bytes = Buffer.from(encoded ?? '', 'base64');
  // Base64 that decodes and encodes to another text would be a second spelling of one signature.
  if (name === undefined || bytes.length < 5 || bytes.toString('base64') !== encoded)
    throw new Error(
      `"${line.slice(0, 80)}" is no line of a signature: a dash, a name, and key id and signature in base64.`,
    );
  return { name, keyId: bytes.subarray(0, 4).toString('hex'), signature: bytes.subarray(4) };
}

/** The text of a note that this key signed. Throws where it did not. Signatures of keys unknown here are passed over. */
export function openNote(note: string, key: NoteKey): string {
  const { text, signatures } = parseNote(note);
  const keyId = keyIdOf(key);
  const own = signatures.filter((one) => one.name === key.name && one.keyId === keyId);
  if (own.length === 0) throw new Error(`The note has no signature of ${key.name} with key ${keyId}.`);
  if (own.length > 1 || !own.every(({ signature }) => verify(null, Buffer.from(text), key.publicKey, signature)))
    throw new Error(`The signature of ${key.name} with key ${keyId} is not of this text.`);
  return text;
}

/** A key as one line of text that can be handed on: `name+key id+base64(0x01 ‖ public key)`. */
export function formatNoteKey(key: NoteKey): string {
  return `${key.name}+${keyIdOf(key)}+${typed(key.publicKey).toString('base64')}`;
}

/** Reads what `formatNoteKey` wrote. */
export function parseNoteKey(text: string): NoteKey {
  const [, name, keyId, encoded] = /^([^\s+]+)\+([0-9a-f]{8})\+([A-Za-z0-9+/]+={0,2})$/.exec(text) ?? [];
  const bytes = Buffer.from(encoded ?? '', 'base64');
  if (name === undefined || bytes.length !== 33 || bytes[0] !== ED25519)
    throw new Error(`"${text.slice(0, 80)}" is no key: expected name+key id+base64, for Ed25519.`);
  const publicKey = createPublicKey({
    key: Buffer.concat([SPKI_HEAD, bytes.subarray(1)]),
    format: 'der',
    type: 'spki',
  });
  const key = { name, publicKey };
  if (keyIdOf(key) !== keyId) throw new Error(`The key of ${name} has not the key id ${keyId} that stands beside it.`);
  return key;
}

/** Eight hexadecimal digits that tell keys apart. */
export function keyIdOf({ name, publicKey }: NoteKey): string {
  if (!/^[^\s+]+$/.test(name)) throw new Error(`"${name}" cannot name a key: it has a blank or a plus sign in it.`);
  return createHash('sha256').update(`${name}\n`).update(typed(publicKey)).digest('hex').slice(0, 8);
}

function typed(publicKey: KeyObject): Buffer {
  if (publicKey.asymmetricKeyType !== 'ed25519')
    throw new Error(`Notes are signed with Ed25519; this key is ${publicKey.asymmetricKeyType}.`);
  const spki = publicKey.export({ format: 'der', type: 'spki' });
  return Buffer.concat([Uint8Array.of(ED25519), spki.subarray(SPKI_HEAD.length)]);
}

function requireText(text: string): void {
  if (!text.endsWith('\n') || !text.isWellFormed() || hasControls(text))
    throw new Error('The text of a note ends with a line feed and has no other control characters in it.');
}

function hasControls(text: string): boolean {
  return Array.from(text).some((one) => (one < ' ' && one !== '\n') || one === '\u007f');
}
