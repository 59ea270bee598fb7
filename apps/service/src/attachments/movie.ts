import { Refusal } from '@breakbook/lab';
import type { tables } from '@breakbook/records';
import { recordedInMovie } from './recorded-in-file.js';

export interface Movie {
  mediaType: 'video/mp4' | 'video/quicktime';
  recorded: tables.RecordedInFile | undefined;
}

/** Boxes that a movie file consists of; anything else at its top is something that was put in or behind it. */
const BOXES = new Set([
  'ftyp',
  'moov',
  'mdat',
  'free',
  'skip',
  'wide',
  'pnot',
  'udta',
  'moof',
  'mfra',
  'sidx',
  'styp',
  'uuid',
  'meta',
  'pdin',
]);
/** Kinds of pictures that begin as movies do. */
const PICTURES = /^(heic|heix|heim|heis|mif1|msf1|avif|avis|jpeg)$/;

/**
 * Reads kind and moment of a movie, and that it is whole: a chain of boxes from the first byte to the last, with one
 * movie header. Undefined where the bytes begin otherwise. Source: ISO/IEC 14496-12, 4.2, 4.3, 8.2.
 */
export function movieIn(bytes: Buffer): Movie | undefined {
  if (bytes.length < 16 || bytes.toString('latin1', 4, 8) !== 'ftyp') return undefined;
  const brand = bytes.toString('latin1', 8, 12);
  if (PICTURES.test(brand)) return undefined;
  let header: Buffer | undefined;
  for (const { kind, content } of boxesIn(bytes)) {
    if (!BOXES.has(kind)) throw broken(`It has a part "${printable(kind)}", which no movie has at that place.`);
    if (kind === 'moov') header ??= boxesOf(content, 'mvhd');
  }
  if (!header || header.length < 20) throw broken('It has no movie header.');
  return { mediaType: brand === 'qt  ' ? 'video/quicktime' : 'video/mp4', recorded: recordedInMovie(header) };
}

function boxesOf(content: Buffer, wanted: string): Buffer | undefined {
  for (const { kind, content: inner } of boxesIn(content)) if (kind === wanted) return inner;
  return undefined;
}

function* boxesIn(bytes: Buffer): Generator<{ kind: string; content: Buffer }> {
  for (let at = 0; at < bytes.length; ) {
    if (at + 8 > bytes.length) throw broken('It ends within a part.');
    const short = bytes.readUInt32BE(at);
    const kind = bytes.toString('latin1', at + 4, at + 8);
    // A size of 1 is written behind the kind, with 64 bits; one of 0 reaches to the end of the file.
    const long = short === 1 && at + 16 <= bytes.length;
    const size = long ? Number(bytes.readBigUInt64BE(at + 8)) : short === 0 ? bytes.length - at : short;
    const head = long ? 16 : 8;
    if (size < head || at + size > bytes.length) throw broken(`Its part "${printable(kind)}" reaches beyond its end.`);
    yield { kind, content: bytes.subarray(at + head, at + size) };
    at += size;
  }
}

function printable(kind: string): string {
  return kind.replaceAll(/[^ -~]/g, '?');
}

function broken(sentence: string): Refusal {
  return new Refusal({
    code: 'file.truncated',
    detail: `${sentence} Part of the video is missing, or something else was added to it.`,
    action: 'Send the file again as the camera made it.',
  });
}
