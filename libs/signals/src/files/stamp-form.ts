import type { Fields } from './calendar.js';

const [ZERO, NINE] = [48, 57];
const ORDER = ['YYYY', 'MM', 'DD', 'hh', 'mm', 'ss'];
const MOST_DIGITS = 15;
/** Powers of ten that a double holds exactly. */
const POWERS = Float64Array.from({ length: MOST_DIGITS + 1 }, (_, power) => 10 ** power);
const NO_SIGN = -1;

type Part =
  | { is: 'field'; slot: number; digits: number }
  | { is: 'fraction' /** The sign before it, which is left out with it. */; sign: number }
  | { is: 'literal'; byte: number };

/**
 * A form of date-times such as `DD.MM.YYYY hh:mm:ss.f`, read from bytes. Four digits of the year, two of each other field
 * and up to fifteen of the fraction, which may be left out with the sign before it; all else as it stands in the form.
 */
export class StampForm {
  /** What was read last: year, month, day, hour, minute, second. */
  readonly fields: Fields = [0, 0, 0, 0, 0, 0];
  /** Of a second. */
  fraction = 0;
  private readonly parts: readonly Part[];

  constructor(form: string) {
    const parts: Part[] = [];
    for (const [text] of form.matchAll(/YYYY|MM|DD|hh|mm|ss|f|./gsu)) {
      const slot = ORDER.indexOf(text);
      if (slot >= 0) parts.push({ is: 'field', slot, digits: text.length });
      else if (text === 'f') {
        const before = parts.at(-1);
        const parted = before?.is === 'literal' && /^[^A-Za-z0-9]$/.test(String.fromCharCode(before.byte));
        if (parted) parts.pop();
        parts.push({ is: 'fraction', sign: parted ? before.byte : NO_SIGN });
      } else for (const byte of new TextEncoder().encode(text)) parts.push({ is: 'literal', byte });
    }
    this.parts = parts;
  }

  /** Are the first `length` of these bytes a stamp of this form, and nothing else? */
  read(bytes: Uint8Array, length: number): boolean {
    this.fraction = 0;
    let at = 0;
    for (const part of this.parts) {
      if (part.is === 'literal') {
        if (bytes[at] !== part.byte) return false;
        at++;
      } else if (part.is === 'fraction') at = this.readFraction(bytes, at, length, part.sign);
      else {
        let value = 0;
        for (const end = at + part.digits; at < end; at++) {
          const byte = bytes[at] as number;
          if (!(byte >= ZERO && byte <= NINE)) return false;
          value = value * 10 + byte - ZERO;
        }
        this.fields[part.slot] = value;
      }
      if (at > length) return false;
    }
    return at === length;
  }

  /** Up to fifteen digits and their power of ten are exact in a double, so that the one rounding left is the right one. */
  private readFraction(bytes: Uint8Array, from: number, length: number, sign: number): number {
    const first = sign === NO_SIGN ? from : from + 1;
    if (sign !== NO_SIGN && bytes[from] !== sign) return from;
    let at = first;
    let digits = 0;
    for (; at < length && at - first < MOST_DIGITS; at++) {
      const byte = bytes[at] as number;
      if (!(byte >= ZERO && byte <= NINE)) break;
      digits = digits * 10 + byte - ZERO;
    }
    if (at === first) return from;
    this.fraction = digits / (POWERS[at - first] as number);
    return at;
  }
}
