import { gunzipSync } from 'node:zlib';
import type { Fault } from './line-bytes.js';

/** Is this packed by gzip (RFC 1952, 2.3.1)? */
export function isGzip(bytes: Uint8Array): boolean {
  return bytes[0] === 0x1f && bytes[1] === 0x8b;
}

/**
 * The bytes inside a gzip file of one member, at most `most` of them: unpacking stops there. A file that is cut, has a
 * wrong checksum, or goes on after its end is a fault.
 */
export function unpacked(bytes: Uint8Array, most: number): Uint8Array | Fault {
  let inside: Uint8Array;
  try {
    inside = gunzipSync(bytes, { maxOutputLength: most });
  } catch (error) {
    return error instanceof RangeError ? longerUnpacked(most) : gzipFault(DAMAGED);
  }
  return lengthSaid(bytes.subarray(-4)) === inside.length % 2 ** 32 ? inside : gzipFault(GOES_ON);
}

export const DAMAGED = 'this gzip file is cut or damaged: it does not unpack to what its checksum says.';
export const GOES_ON = 'something follows the end of this gzip file.';

export function gzipFault(sentence: string): Fault {
  return {
    code: 'file.compressed',
    said: {
      sentence,
      expected: 'one whole gzip file with a run file inside',
      action: 'Pack the record again, or send the file inside.',
    },
  };
}

export function longerUnpacked(most: number): Fault {
  return {
    code: 'file.too-large',
    said: {
      sentence: `the file is longer than ${most} bytes when it is unpacked; unpacking stopped there.`,
      action: 'Export the run alone, or have the layout say how long these files are unpacked.',
    },
  };
}

/**
 * The length of the last member, modulo 2^32, by the last four bytes of a gzip file (RFC 1952, 2.3.1): another one than
 * what was unpacked means that more than one member stands in it.
 */
export function lengthSaid(lastFour: Uint8Array): number {
  return new DataView(lastFour.buffer, lastFour.byteOffset, lastFour.byteLength).getUint32(0, true);
}
