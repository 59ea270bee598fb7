import type { tables } from '@breakbook/records';

/**
 * When was a photo taken, by its own word? Reads the date and time that a camera wrote into the EXIF part of a JPEG
 * (segment APP1) or a PNG (chunk eXIf); undefined where there is none, or none that exists.
 *
 * Sources: CIPA DC-008 (Exif 2.31), 4.5 and 4.6 (tags 8769, 9003, 9011, 0132), TIFF 6.0, section 2; ISO/IEC 10918-1, B.1;
 * PNG, third edition, 11.3.2.9.
 */
export function recordedInPhoto(bytes: Buffer): tables.RecordedInFile | undefined {
  const tiff = bytes.readUInt16BE(0) === 0xffd8 ? exifOfJpeg(bytes) : exifOfPng(bytes);
  if (!tiff) return undefined;
  try {
    return recordedInTiff(tiff);
  } catch (error) {
    // A table that leads out of its part says nothing; the photo is none the worse for it.
    if (error instanceof RangeError) return undefined;
    throw error;
  }
}

function exifOfJpeg(bytes: Buffer): Buffer | undefined {
  for (let at = 2; at + 10 <= bytes.length && bytes[at] === 0xff; ) {
    const marker = bytes[at + 1];
    if (marker === 0xda) return undefined;
    if (marker === 0xff) {
      at += 1;
      continue;
    }
    const length = bytes.readUInt16BE(at + 2);
    if (marker === 0xe1 && bytes.toString('latin1', at + 4, at + 10) === 'Exif\0\0')
      return bytes.subarray(at + 10, at + 2 + length);
    at += 2 + length;
  }
  return undefined;
}

function exifOfPng(bytes: Buffer): Buffer | undefined {
  for (let at = 8; at + 12 <= bytes.length; ) {
    const length = bytes.readUInt32BE(at);
    if (bytes.toString('latin1', at + 4, at + 8) === 'eXIf') return bytes.subarray(at + 8, at + 8 + length);
    at += 12 + length;
  }
  return undefined;
}

function recordedInTiff(tiff: Buffer): tables.RecordedInFile | undefined {
  const little = tiff.toString('latin1', 0, 2) === 'II';
  if (!little && tiff.toString('latin1', 0, 2) !== 'MM') return undefined;
  const short = (at: number) => (little ? tiff.readUInt16LE(at) : tiff.readUInt16BE(at));
  const long = (at: number) => (little ? tiff.readUInt32LE(at) : tiff.readUInt32BE(at));
  /** Where the value of a tag stands in a table of tags, which is 12 bytes a tag. */
  const placeOf = (table: number, tag: number): number | undefined => {
    for (let entry = 0; entry < short(table); entry++)
      if (short(table + 2 + 12 * entry) === tag) return table + 2 + 12 * entry;
    return undefined;
  };
  const textOf = (table: number, tag: number): string | undefined => {
    const entry = placeOf(table, tag);
    if (entry === undefined) return undefined;
    const count = long(entry + 4);
    const from = count <= 4 ? entry + 8 : long(entry + 8);
    return tiff.toString('latin1', from, from + count).replace(/\0.*$/s, '');
  };
  const first = long(4);
  const pointer = placeOf(first, 0x8769);
  const exif = pointer === undefined ? undefined : long(pointer + 8);
  if (exif !== undefined) {
    const local = localOf(textOf(exif, 0x9003));
    const zone = /^[+-]\d\d:\d\d$/.exec(textOf(exif, 0x9011) ?? '')?.[0];
    if (local) return { local, ...(zone ? { zone } : {}), said: 'EXIF DateTimeOriginal' };
  }
  const local = localOf(textOf(first, 0x0132));
  return local ? { local, said: 'EXIF DateTime' } : undefined;
}

/** "2031:03:04 09:12:44", as EXIF writes it; undefined for a moment that there never was. */
function localOf(text = ''): string | undefined {
  const [, year, month, day, time] = /^(\d{4}):(\d\d):(\d\d) (\d\d:\d\d:\d\d)$/.exec(text) ?? [];
  return year === undefined ? undefined : existing(`${year}-${month}-${day}T${time}`);
}

function existing(local: string): string | undefined {
  const instant = new Date(`${local}Z`);
  if (Number.isNaN(instant.getTime()) || instant.toISOString().slice(0, 19) !== local) return undefined;
  // The year of a camera whose clock was never set.
  return instant.getUTCFullYear() > 1980 ? local : undefined;
}

/** Seconds from the beginning of 1904, by which movies count, to that of 1970. */
const FROM_1904 = 2_082_844_800;

/** The moment that a movie header (box mvhd) has, in seconds since 1904 UTC; 0 stands for none. Source: ISO/IEC 14496-12, 8.2.2. */
export function recordedInMovie(header: Buffer): tables.RecordedInFile | undefined {
  const seconds = header[0] === 1 ? Number(header.readBigUInt64BE(4)) : header.readUInt32BE(4);
  const at = (seconds - FROM_1904) * 1000;
  if (seconds === 0 || at < 0 || at > 8.64e15) return undefined;
  const local = existing(new Date(at).toISOString().slice(0, 19));
  return local ? { local, zone: 'Z', said: 'movie header' } : undefined;
}
