import { Refusal } from '@breakbook/lab';

/** What a photo is, told from its own bytes. */
export interface Picture {
  mediaType: 'image/png' | 'image/jpeg';
  /** In pixels, as stored. */
  width: number;
  height: number;
}

/** A screen that shows more than this needs a gigabyte for it. */
const MOST_PIXELS = 100e6;

const PNG = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);

/** Bytes by which other files are known, to say what one looks like. */
const OTHERS: [name: string, signature: string | number[]][] = [
  ['a GIF', 'GIF8'],
  ['a WebP or another RIFF file', 'RIFF'],
  ['a zip archive or office document', 'PK'],
  ['gzip', [0x1f, 0x8b]],
  ['an SVG, HTML or XML text', '<'],
  ['a program', [0x7f, 0x45, 0x4c, 0x46]],
  ['a TIFF', 'II*'],
  ['a TIFF', 'MM'],
];

/**
 * Reads kind and size of a photo, and that it is whole. PNG and JPEG hold no program; everything else is refused,
 * whatever the sender calls it.
 *
 * Sources: ISO/IEC 15948 (PNG), clauses 5 and 11.2; ISO/IEC 10918-1 (JPEG), annex B.
 */
export function pictureIn(bytes: Buffer): Picture {
  const picture = bytes.subarray(0, 8).equals(PNG) ? pngIn(bytes) : jpegIn(bytes);
  if (!picture) throw otherKind(bytes);
  if (picture.width * picture.height > MOST_PIXELS)
    throw new Refusal({
      code: 'file.too-large',
      detail: `The photo has ${picture.width} by ${picture.height} pixels; ${MOST_PIXELS / 1e6} million in all are taken.`,
      action: 'Send it at a smaller size.',
    });
  return picture;
}

function pngIn(bytes: Buffer): Picture | undefined {
  if (bytes.length < 33 || bytes.toString('latin1', 12, 16) !== 'IHDR') return undefined;
  const width = bytes.readUInt32BE(16);
  const height = bytes.readUInt32BE(20);
  if (width === 0 || height === 0) return undefined;
  for (let at = PNG.length; at + 12 <= bytes.length; ) {
    const next = at + 12 + bytes.readUInt32BE(at);
    if (bytes.toString('latin1', at + 4, at + 8) === 'IEND' && next === bytes.length)
      return { mediaType: 'image/png', width, height };
    at = next;
  }
  throw cut('The PNG does not end where its last part ends.');
}

function jpegIn(bytes: Buffer): Picture | undefined {
  if (bytes.length < 4 || bytes.readUInt16BE(0) !== 0xffd8) return undefined;
  let size: { width: number; height: number } | undefined;
  for (let at = 2; at + 4 <= bytes.length; ) {
    if (bytes[at] !== 0xff) return undefined;
    const marker = bytes[at + 1] ?? 0;
    // A marker may be filled up with any number of FF before it.
    if (marker === 0xff) {
      at += 1;
      continue;
    }
    if (isFrame(marker) && at + 9 <= bytes.length)
      size = { height: bytes.readUInt16BE(at + 5), width: bytes.readUInt16BE(at + 7) };
    if (marker === 0xda) return size && whole(bytes, at, size);
    at += 2 + bytes.readUInt16BE(at + 2);
  }
  throw cut('The JPEG ends before its picture begins.');
}

/** SOF0 to SOF15, but for the tables DHT, JPG and DAC that lie between them. */
function isFrame(marker: number): boolean {
  return marker >= 0xc0 && marker <= 0xcf && marker !== 0xc4 && marker !== 0xc8 && marker !== 0xcc;
}

function whole(bytes: Buffer, scan: number, size: { width: number; height: number }): Picture | undefined {
  if (size.width === 0 || size.height === 0) return undefined;
  // Telephones add a second picture after the end of the first, so the end need not be the last that is there.
  const end = bytes.indexOf(Buffer.from([0xff, 0xd9]), scan);
  if (end < 0) throw cut('The JPEG has no end.');
  refuseAnother(bytes.subarray(end + 2));
  return { mediaType: 'image/jpeg', ...size };
}

/** What is an archive, a document or a page to another program is no second picture. */
const ANOTHER = /%PDF-|<(html|script|svg|!doctype|\?xml-stylesheet|\?php)/i;
/** The end of an archive: within the last 64 KiB (its comment), 22 bytes at least. */
const ARCHIVE_END = Buffer.from('PK\u0005\u0006');

function refuseAnother(behind: Buffer): void {
  // Only at its beginning: in the midst of a second picture a few such bytes stand by chance.
  if (!ANOTHER.test(behind.toString('latin1', 0, 1024)) && !behind.subarray(-65_557).includes(ARCHIVE_END)) return;
  throw new Refusal({
    code: 'file.type-mismatch',
    detail: 'Behind the end of the JPEG stands another file: an archive, a document or a page.',
    action: 'Send the photo as the camera made it.',
  });
}

function cut(sentence: string): Refusal {
  return new Refusal({
    code: 'file.truncated',
    detail: `${sentence} Part of the photo is missing, or something else was added to it.`,
    action: 'Send the file again as the camera made it.',
  });
}

function otherKind(bytes: Buffer): Refusal {
  const looks = OTHERS.find(([, signature]) =>
    bytes.subarray(0, signature.length).equals(Buffer.from(signature as string)),
  );
  return new Refusal({
    code: 'file.type-mismatch',
    detail: looks
      ? `This looks like ${looks[0]}; photos are PNG or JPEG, videos MP4 or MOV, documents PDF.`
      : 'This is no PNG, JPEG, MP4, MOV or PDF.',
    action: 'Send a photo as PNG or JPEG, a video as MP4, a document as PDF.',
  });
}
