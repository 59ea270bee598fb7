import { createHash } from 'node:crypto';
import { deflateSync, inflateSync } from 'node:zlib';

/**
 * A column of doubles, packed so that it comes back bit for bit: negative zero, infinities and every NaN as they were.
 *
 *     offset  bytes
 *          0      4  "BBT1"
 *          4      1  order of the differences: 1 for readings, 2 for a clock
 *          5      4  how many doubles, unsigned, little endian
 *          9     32  SHA-256 of the doubles as IEEE 754 binary64, little endian
 *         41    ...  zlib (RFC 1950) of eight planes: byte 0 of every difference, then byte 1 of each, up to byte 7
 *
 * Differences are of the 64-bit patterns taken as whole numbers modulo 2^64 (those before the first count as 0), so no
 * rounding enters. They are folded so that small negative ones are small too: d becomes 2d, or -2d - 1 below zero.
 */
const MAGIC = [0x42, 0x42, 0x54, 0x31];
const HEAD = 41;

export type Order = 1 | 2;

/** Packs a column: differences of order 2 suit a clock that runs evenly, those of order 1 everything else. */
export function packColumn(values: Float64Array, order: Order): Uint8Array {
  const n = values.length;
  const words = new Uint32Array(values.slice().buffer);
  const planes = new Uint8Array(8 * n);
  // The pattern before, and for order 2 the difference before, as halves of 32 bits.
  let [low, high, lowStep, highStep] = [0, 0, 0, 0];
  for (let i = 0; i < n; i++) {
    const [nowLow, nowHigh] = [words[2 * i] as number, words[2 * i + 1] as number];
    const dLow = (nowLow - low) >>> 0;
    const dHigh = (nowHigh - high - (nowLow < low ? 1 : 0)) >>> 0;
    let [outLow, outHigh] = [dLow, dHigh];
    if (order === 2) {
      outLow = (dLow - lowStep) >>> 0;
      outHigh = (dHigh - highStep - (dLow < lowStep ? 1 : 0)) >>> 0;
      [lowStep, highStep] = [dLow, dHigh];
    }
    [low, high] = [nowLow, nowHigh];
    // Shifted left by one bit; all bits turned over where the sign bit was set.
    const sign = -(outHigh >>> 31);
    const foldedHigh = ((outHigh << 1) | (outLow >>> 31)) ^ sign;
    const foldedLow = (outLow << 1) ^ sign;
    for (let byte = 0; byte < 4; byte++) {
      planes[byte * n + i] = foldedLow >>> (8 * byte);
      planes[(byte + 4) * n + i] = foldedHigh >>> (8 * byte);
    }
  }
  const deflated = deflateSync(planes, { level: 1 });
  const packed = new Uint8Array(HEAD + deflated.length);
  packed.set(MAGIC);
  packed[4] = order;
  new DataView(packed.buffer).setUint32(5, n, true);
  packed.set(digestOf(values), 9);
  packed.set(deflated, HEAD);
  return packed;
}

/** The column that was packed. Throws where the bytes are not those that were written. */
export function unpackColumn(packed: Uint8Array): Float64Array {
  const order = packed[4];
  if (packed.length < HEAD || MAGIC.some((byte, at) => packed[at] !== byte) || (order !== 1 && order !== 2))
    throw new Error('unpackColumn: these bytes do not begin as a packed column does.');
  const n = new DataView(packed.buffer, packed.byteOffset).getUint32(5, true);
  const planes = inflateSync(packed.subarray(HEAD), { maxOutputLength: Math.max(1, 8 * n) });
  if (planes.length !== 8 * n)
    throw new Error(`unpackColumn: ${n} doubles were promised and ${planes.length} bytes found.`);
  const values = new Float64Array(n);
  const words = new Uint32Array(values.buffer);
  let [low, high, lowStep, highStep] = [0, 0, 0, 0];
  for (let i = 0; i < n; i++) {
    let [foldedLow, foldedHigh] = [0, 0];
    for (let byte = 3; byte >= 0; byte--) {
      foldedLow = (foldedLow << 8) | (planes[byte * n + i] as number);
      foldedHigh = (foldedHigh << 8) | (planes[(byte + 4) * n + i] as number);
    }
    const sign = -(foldedLow & 1);
    let dLow = (((foldedLow >>> 1) | (foldedHigh << 31)) ^ sign) >>> 0;
    let dHigh = ((foldedHigh >>> 1) ^ sign) >>> 0;
    if (order === 2) {
      [lowStep, highStep] = sum(lowStep, highStep, dLow, dHigh);
      [dLow, dHigh] = [lowStep, highStep];
    }
    [low, high] = sum(low, high, dLow, dHigh);
    words[2 * i] = low;
    words[2 * i + 1] = high;
  }
  const written = packed.subarray(9, HEAD);
  if (digestOf(values).some((byte, at) => byte !== written[at]))
    throw new Error('unpackColumn: the doubles are not those that were packed; their digest differs.');
  return values;
}

/** Sum of two 64-bit numbers in halves, modulo 2^64. */
function sum(aLow: number, aHigh: number, bLow: number, bHigh: number): [number, number] {
  const low = aLow + bLow;
  return [low >>> 0, (aHigh + bHigh + (low > 0xffffffff ? 1 : 0)) >>> 0];
}

function digestOf(values: Float64Array): Uint8Array {
  return createHash('sha256')
    .update(new Uint8Array(values.buffer, values.byteOffset, values.byteLength))
    .digest();
}
