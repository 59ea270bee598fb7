import type { ProblemCode } from '@breakbook/lab';
import type { Dialect } from './dialect.js';
import type { Said } from './problem-list.js';

/** Enough to tell a text from what only calls itself one. */
export const FIRST_BYTES = 4096;

type Answer = { code: ProblemCode; said: Said; line?: number };

const OTHER_TYPES: [magic: string, looksLike: string][] = [
  ['%PDF', 'a PDF document'],
  ['\x7fELF', 'a program'],
  ['MZ\x90\0', 'a program'],
  ['\x89PNG', 'a picture (PNG)'],
  ['\xff\xd8\xff', 'a picture (JPEG)'],
  ['GIF8', 'a picture (GIF)'],
  ['\xd0\xcf\x11\xe0', 'a spreadsheet or document of an office suite'],
  ['\x89HDF', 'an HDF5 file'],
  ['PAR1', 'a Parquet file'],
  ['SQLite format 3', 'a database'],
  ['<!DOCTYPE', 'a web page'],
  ['<html', 'a web page'],
  ['<?xml', 'an XML document'],
];

const COMPRESSED: [magic: string, looksLike: string][] = [
  ['\x1f\x8b', 'gzip'],
  ['PK\x03\x04', 'a zip archive'],
  ['PK\x05\x06', 'a zip archive'],
  ['BZh', 'bzip2'],
  ['\xfd7zXZ\0', 'xz'],
  ['\x28\xb5\x2f\xfd', 'zstd'],
  ['7z\xbc\xaf', 'a 7z archive'],
  ['Rar!', 'a rar archive'],
];

const OTHER_ENCODINGS: [magic: string, looksLike: string][] = [
  ['\xff\xfe\0\0', 'UTF-32'],
  ['\0\0\xfe\xff', 'UTF-32'],
  ['\xff\xfe', 'UTF-16'],
  ['\xfe\xff', 'UTF-16'],
];

/** Is this something else than a text in the encoding expected, whatever its name says? Told by its first bytes alone. */
export function somethingElse(bytes: Uint8Array, expected: Dialect['encoding'] = 'utf-8'): Answer | undefined {
  const start = new TextDecoder('latin1').decode(bytes.subarray(0, FIRST_BYTES));
  const begins = (magic: string) => [...magic].every((one, index) => bytes[index] === one.charCodeAt(0));
  const match = (list: [string, string][]) => list.find(([magic]) => begins(magic))?.[1];

  const office = begins('PK') && /\[Content_Types\]\.xml|application\/vnd\.oasis/.test(start);
  const other = office ? 'a spreadsheet or document of an office suite' : match(OTHER_TYPES);
  if (other)
    return answer('file.type-mismatch', `this looks like ${other}, not like a run file.`, 'Export the record as CSV.');

  const packed = match(COMPRESSED);
  if (packed)
    return answer(
      'file.compressed',
      `this is compressed (${packed}).`,
      packed === 'gzip'
        ? 'Unpack it and send the file inside, or have a layout that takes gzip read the unread file.'
        : 'Unpack it and send the file inside. Of packed files a layout may take gzip alone.',
    );

  const found = encodingFound(bytes, match(OTHER_ENCODINGS));
  if (found && !expected.startsWith(found.toLowerCase()))
    return answer(
      'file.encoding',
      `this looks like ${found}.`,
      `Export as ${expected.toUpperCase()} and send the file again, or have a layout with that encoding read the unread file.`,
      1,
    );
  return undefined;
}

function encodingFound(bytes: Uint8Array, marked: string | undefined): string | undefined {
  if (marked === 'UTF-16') return bytes[0] === 0xff ? 'UTF-16LE' : 'UTF-16BE';
  return marked ?? (everySecondIsZero(bytes) ? (bytes[1] === 0 ? 'UTF-16LE' : 'UTF-16BE') : undefined);
}

function answer(code: ProblemCode, sentence: string, action: string, line?: number): Answer {
  return {
    code,
    said: { sentence, expected: 'a CSV text in the encoding of the layout', action },
    ...(line === undefined ? {} : { line }),
  };
}

function everySecondIsZero(bytes: Uint8Array): boolean {
  const length = Math.min(bytes.length, 64) & ~1;
  if (length < 4) return false;
  for (const zeros of [0, 1]) {
    let all = true;
    for (let i = 0; i < length; i++) if ((bytes[i] === 0) !== (i % 2 === zeros)) all = false;
    if (all) return true;
  }
  return false;
}

/** Bytes of the one byte order mark that a text of this encoding may begin with. */
export function markLength(bytes: Uint8Array, encoding: Dialect['encoding']): number {
  const mark = { 'utf-8': [0xef, 0xbb, 0xbf], 'utf-16le': [0xff, 0xfe], 'utf-16be': [0xfe, 0xff] };
  const expected = encoding in mark ? mark[encoding as keyof typeof mark] : [];
  return expected.every((byte, index) => bytes[index] === byte) ? expected.length : 0;
}
