/** Half the order of P-256 (FIPS 186-5, SP 800-186). */
const ORDER = 0xffffffff00000000ffffffffffffffffbce6faada7179e84f3b9cac2fc632551n;
const BYTES = 32;

/**
 * Of the two values that are a signature alike, (r, s) and (r, order - s), the one with the smaller s: so that a
 * signature has one spelling and no other.
 *
 * @param value r and s, 32 bytes each, big-endian (IEEE P1363)
 */
export function withLowS(value: Uint8Array): Uint8Array {
  const { r, s } = parts(value);
  return s > ORDER / 2n ? Buffer.concat([bytes(r), bytes(ORDER - s)]) : value;
}

export function isLowS(value: Uint8Array): boolean {
  return parts(value).s <= ORDER / 2n;
}

/** SEQUENCE { r INTEGER, s INTEGER } in DER (RFC 3279, 2.2.3). */
export function ecdsaToDer(value: Uint8Array): Uint8Array {
  const { r, s } = parts(value);
  const content = Buffer.concat([integer(r), integer(s)]);
  return Buffer.concat([Uint8Array.of(0x30, content.length), content]);
}

/** Reads what `ecdsaToDer` wrote, and nothing else. */
export function ecdsaFromDer(der: Uint8Array): Uint8Array {
  const rLength = der[3] ?? 0;
  const r = der.subarray(4, 4 + rLength);
  const s = der.subarray(6 + rLength);
  const value = Buffer.concat([bytes(number(r)), bytes(number(s))]);
  if (!Buffer.from(ecdsaToDer(value)).equals(der)) throw new Error('The signature is no ECDSA value in DER.');
  return value;
}

function parts(value: Uint8Array): { r: bigint; s: bigint } {
  if (value.length !== 2 * BYTES) throw new Error('An ECDSA value on P-256 is 64 bytes.');
  return { r: number(value.subarray(0, BYTES)), s: number(value.subarray(BYTES)) };
}

function number(part: Uint8Array): bigint {
  return BigInt(`0x0${Buffer.from(part).toString('hex')}`);
}

function bytes(part: bigint): Uint8Array {
  const hex = part.toString(16).padStart(2 * BYTES, '0');
  if (hex.length > 2 * BYTES) throw new Error('The signature is no ECDSA value on P-256.');
  return Buffer.from(hex, 'hex');
}

function integer(part: bigint): Uint8Array {
  const hex = part.toString(16);
  const even = Buffer.from(hex.padStart(hex.length + (hex.length % 2), '0'), 'hex');
  // A leading bit would make it negative.
  const content = (even[0] ?? 0) & 0x80 ? Buffer.concat([Uint8Array.of(0), even]) : even;
  return Buffer.concat([Uint8Array.of(0x02, content.length), content]);
}
