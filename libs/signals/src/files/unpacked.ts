import { gunzipSync } from 'node:zlib';
import { type Fault } from './line-bytes.js';

/** Is this packed by gzip (RFC 1952, 2.3.1)? */
export function isGzip(bytes: Uint8Array): boolean {
  return bytes[0] === 0x1f && bytes[1] === 0x8b;
}

/**
 * The bytes inside a gzip file of one member, at most `most` of them: unpacking stops there. A file that is cut, has a
 * wrong checksum, or goes on after its end is a fault.
 */
export function unpacked(bytes: Uint8Array, most: number): Uint8Array | Fault {
  const fault = (sentence: string): Fault => ({
    code: 'file.compressed',
    said: {
      sentence,
      expected: 'one whole gzip file with a run file inside',
      action: 'Pack the record again, or send the file inside.',
    },
  });
  let inside: Uint8Array;
  try {
    inside = gunzipSync(bytes, { maxOutputLength: most });
  } catch (error) {
    if (error instanceof RangeError)
      return {
        code: 'file.too-large',
        said: {
          sentence: `the file is longer than ${most} bytes when it is unpacked; unpacking stopped there.`,
          action: 'Export the run alone, or have the layout say how long these files are unpacked.',
        },
      };
    return fault('this gzip file is cut or damaged: it does not unpack to what its checksum says.');
  }
  // The last four bytes are the length of the last member (RFC 1952, 2.3.1): another one means that more follows.
  const said = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength).getUint32(bytes.length - 4, true);
  if (said !== inside.length % 2 ** 32) return fault('something follows the end of this gzip file.');
  return inside;
}
