import { createHmac, timingSafeEqual } from 'node:crypto';

/** A code holds for half a minute. */
export const STEP_SECONDS = 30;

/** How a code is worked out. The code generators people have know these only, whatever they are told. */
const USUAL = { digits: 6, hash: 'sha1' };

/**
 * The code that a secret gives for a counter: six digits out of an HMAC over the counter in eight bytes.
 *
 * Source: RFC 4226, 5.3 (HOTP); the counter is the number of half minutes since 1970 in RFC 6238, 4.2 (TOTP).
 */
export function codeOf(secret: Uint8Array, counter: number, { digits, hash } = USUAL): string {
  const moved = Buffer.alloc(8);
  moved.writeBigUInt64BE(BigInt(counter));
  const mac = createHmac(hash, secret).update(moved).digest();
  const from = mac.readUInt8(mac.length - 1) & 0x0f;
  const cut = mac.readUInt32BE(from) & 0x7fffffff;
  return String(cut % 10 ** digits).padStart(digits, '0');
}

/** The half minute of an instant. */
export function stepAt(milliseconds: number): number {
  return Math.floor(milliseconds / 1000 / STEP_SECONDS);
}

/**
 * The half minute whose code was typed: this one, or one beside it where clocks differ (RFC 6238, 5.2 and 6). Undefined
 * where it is none of them. All are compared, in the same time whichever it is.
 */
export function stepOfCode(secret: Uint8Array, typed: string, now: number): number | undefined {
  const given = Buffer.from(typed);
  const fits = [-1, 0, 1].flatMap((beside) => {
    const step = stepAt(now) + beside;
    const code = Buffer.from(codeOf(secret, step));
    return code.length === given.length && timingSafeEqual(code, given) ? [step] : [];
  });
  return fits.at(-1);
}
