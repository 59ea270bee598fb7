const ALPHABET = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ234567';

/** Bytes in letters and digits that nobody takes for one another, five bits each (RFC 4648, 6), without padding. */
export function base32(bytes: Uint8Array): string {
  const bits = Array.from(bytes, (byte) => byte.toString(2).padStart(8, '0')).join('');
  return (bits.match(/.{1,5}/g) ?? []).map((five) => ALPHABET[Number.parseInt(five.padEnd(5, '0'), 2)]).join('');
}
