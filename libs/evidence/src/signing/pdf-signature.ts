import { createHash } from 'node:crypto';

/** Bytes that a signature with its certificates may take within a file. */
export const SIGNATURE_ROOM = 8192;

/** Stands in the file for numbers that are known only once all of it is written. */
const LATER = 9_999_999_999;
const ONE_RANGE = /\/ByteRange \[0 (\d{1,10}) (\d{1,10}) (\d{1,10})\]/;
const RANGE_LATER = `/ByteRange [0 ${LATER} ${LATER} ${LATER}]`;

/** The entries of a signature dictionary (ISO 32000-2, table 255) whose values are filled in by `fillSignature`. */
export const SIGNATURE_PLACE = {
  Type: 'Sig',
  Filter: 'Adobe.PPKLite',
  SubFilter: 'ETSI.CAdES.detached',
  ByteRange: [0, LATER, LATER, LATER],
  Contents: Buffer.alloc(SIGNATURE_ROOM),
} as const;

/** Signs a file that has a place for its signature: all of its bytes but that place. */
export function fillSignature(file: Uint8Array, sign: (digest: string) => Uint8Array): Uint8Array {
  const bytes = Buffer.from(file);
  const range = onlyPlaceOf(bytes, RANGE_LATER);
  const contents = onlyPlaceOf(bytes, `<${'00'.repeat(SIGNATURE_ROOM)}>`);
  const [end, again] = [contents, contents + 2 + 2 * SIGNATURE_ROOM];
  const told = `/ByteRange [0 ${end} ${again} ${bytes.length - again}]`.padEnd(RANGE_LATER.length, ' ');
  bytes.write(told, range, 'latin1');
  const signature = Buffer.from(sign(digestOfParts(bytes.subarray(0, end), bytes.subarray(again))));
  if (signature.length > SIGNATURE_ROOM)
    throw new Error(
      `The signature takes ${signature.length} bytes with its certificates; there is room for ${SIGNATURE_ROOM}.`,
    );
  bytes.write(signature.toString('hex'), contents + 1, 'latin1');
  return new Uint8Array(bytes);
}

function onlyPlaceOf(bytes: Buffer, text: string): number {
  const at = bytes.indexOf(text, 0, 'latin1');
  if (at < 0 || bytes.indexOf(text, at + 1, 'latin1') >= 0)
    throw new Error('The file has no place for its signature, or several.');
  return at;
}

/** A signed file as it was before it was signed: with nothing in the place for its signature. */
export function withoutSignature(file: Uint8Array): Uint8Array {
  readSignature(file);
  const bytes = Buffer.from(file);
  const [told = '', end = '0', again = '0'] = ONE_RANGE.exec(bytes.toString('latin1')) ?? [];
  bytes.write(RANGE_LATER, bytes.indexOf(told, 0, 'latin1'), 'latin1');
  bytes.write(`<${'00'.repeat(SIGNATURE_ROOM)}>`, Number(end), 'latin1');
  if (Number(again) !== Number(end) + 2 + 2 * SIGNATURE_ROOM)
    throw new Error('The file has no place for its signature.');
  return new Uint8Array(bytes);
}

/** What is signed of a file, and the signature. */
export interface PdfSignature {
  /** SHA-256 of every byte of the file but those between the brackets of the signature. */
  digest: string;
  /** In DER. */
  cms: Uint8Array;
}

/**
 * Finds the signature of a file that was signed whole. Throws where there is none, and where a byte of the file is
 * neither signed nor part of the signature: behind the signed end (a later section of the file), in the padding, in
 * another way of writing the same number.
 */
export function readSignature(file: Uint8Array): PdfSignature {
  const bytes = Buffer.from(file.buffer, file.byteOffset, file.byteLength);
  const text = bytes.toString('latin1');
  const ranges = [...text.matchAll(new RegExp(ONE_RANGE, 'g'))];
  if (ranges.length === 0) throw new Error('The file is not signed.');
  const [found, ...more] = ranges;
  if (!found || more.length > 0) throw new Error('The file has several signatures; a document of ours has one.');
  const [end = 0, again = 0, rest = 0] = found.slice(1).map(Number);
  if (again + rest !== bytes.length)
    throw new Error(
      `The signature is of the first ${again + rest} bytes and the file has ${bytes.length}: something was added or cut off behind it.`,
    );
  const place = text.slice(end, again);
  if (
    !/^<[0-9a-f]*>$/.test(place) ||
    place.length !== 2 + 2 * SIGNATURE_ROOM ||
    text.slice(end - CONTENTS.length, end) !== CONTENTS
  )
    throw new Error('Between the signed bytes stands something else than a signature.');
  return {
    digest: digestOfParts(bytes.subarray(0, end), bytes.subarray(again)),
    cms: derWithin(Buffer.from(place.slice(1, -1), 'hex')),
  };
}

const CONTENTS = '/Contents ';

/** The one DER element at the beginning; what follows is zeros. */
function derWithin(padded: Buffer): Uint8Array {
  const [tag, first = 0] = padded;
  const lengthBytes = first & 0x80 ? first & 0x7f : 0;
  const length = lengthBytes ? padded.readUIntBE(2, Math.min(lengthBytes, 6)) : first;
  const end = 2 + lengthBytes + length;
  if (tag !== 0x30 || lengthBytes > 2 || end > padded.length || padded.subarray(end).some((byte) => byte !== 0))
    throw new Error('Between the signed bytes stands something else than a signature.');
  return new Uint8Array(padded.subarray(0, end));
}

function digestOfParts(before: Uint8Array, after: Uint8Array): string {
  return createHash('sha256').update(before).update(after).digest('hex');
}
