import { type ProblemCode, shown } from '@breakbook/lab';
import type { Said } from './problem-list.js';

/*
 * The one grammar of numbers in run files (RFC 5234):
 *
 *     cell     = *SP number *SP
 *     number   = [ "+" / "-" ] ( 1*DIGIT [ "." *DIGIT ] / "." 1*DIGIT ) [ exponent ]
 *     exponent = ( "e" / "E" ) [ "+" / "-" ] 1*DIGIT
 *
 * The value is the double nearest to the decimal written (IEEE 754-2019, 4.3.1), and a negative zero is zero. Beyond
 * 1e20 in magnitude, or so small that a double would make it zero, no sensor reads: refused.
 */

const LARGEST = 1e20;
const MOST_IN_32_BITS = 9;
const [SPACE, PLUS, MINUS, POINT, ZERO, NINE, UPPER_E, LOWER_E] = [32, 43, 45, 46, 48, 57, 69, 101];
/** Powers of ten that a double holds exactly. */
const POWERS = Float64Array.from({ length: 23 }, (_, power) => Number(`1e${power}`));
const ascii = new TextDecoder('latin1');
const encoder = new TextEncoder();

/**
 * Reads the number that begins at `at` into `into[slot]`, and answers the place after it; -1 where there is none that
 * the grammar knows and a sensor could have read. The bytes must go on with something that is no digit.
 *
 * Up to 15 digits are gathered into a whole number and scaled by one power of ten, both exact in a double, so that the
 * one rounding left is the right one (Clinger 1990, "How to read floating point numbers accurately", the fast path).
 * Up to 9 of them fit 32 bits, which is what most readings have and a processor adds up fastest. Longer numbers go
 * through the language's own reading.
 */
export function scanNumber(
  bytes: Uint8Array,
  at: number,
  into: Float64Array,
  slot: number,
  decimal: number = POINT,
): number {
  let end = at;
  let byte = bytes[end] as number;
  const negative = byte === MINUS;
  if (negative || byte === PLUS) byte = bytes[++end] as number;

  const first = end;
  let mantissa = 0;
  while (byte >= ZERO && byte <= NINE) {
    mantissa = (Math.imul(mantissa, 10) + byte - ZERO) | 0;
    byte = bytes[++end] as number;
  }
  let digits = end - first;
  let decimals = 0;
  if (byte === decimal) {
    const point = end;
    byte = bytes[++end] as number;
    while (byte >= ZERO && byte <= NINE) {
      mantissa = (Math.imul(mantissa, 10) + byte - ZERO) | 0;
      byte = bytes[++end] as number;
    }
    decimals = end - point - 1;
    digits += decimals;
  }
  if (digits === 0) return -1;
  if (digits > MOST_IN_32_BITS || byte === LOWER_E || byte === UPPER_E)
    return scanLongNumber(bytes, at, into, slot, decimal);
  const value = decimals === 0 ? mantissa : mantissa / (POWERS[decimals] as number);
  into[slot] = negative && value !== 0 ? -value : value;
  return end;
}

/** A number of more digits, or with an exponent. */
function scanLongNumber(bytes: Uint8Array, start: number, into: Float64Array, slot: number, decimal: number): number {
  let at = start;
  let byte = bytes[at] as number;
  const negative = byte === MINUS;
  if (negative || byte === PLUS) byte = bytes[++at] as number;

  let mantissa = 0;
  let digits = 0;
  let scale = 0;
  let point = false;
  for (; ; byte = bytes[++at] as number) {
    if (byte >= ZERO && byte <= NINE) {
      mantissa = mantissa * 10 + (byte - ZERO);
      // Zeros in front say nothing.
      if (mantissa > 0) digits++;
      if (point) scale++;
    } else if (byte === decimal && !point) point = true;
    else break;
  }
  if (byte === LOWER_E || byte === UPPER_E) {
    byte = bytes[++at] as number;
    const down = byte === MINUS;
    if (down || byte === PLUS) byte = bytes[++at] as number;
    if (!(byte >= ZERO && byte <= NINE)) return -1;
    let exponent = 0;
    while (byte >= ZERO && byte <= NINE) {
      exponent = Math.min(exponent * 10 + (byte - ZERO), 1e6);
      byte = bytes[++at] as number;
    }
    scale += down ? exponent : -exponent;
  }

  let value: number;
  if (mantissa === 0) value = 0;
  else if (digits <= 15 && scale >= -22 && scale <= 22)
    value = scale >= 0 ? mantissa / (POWERS[scale] as number) : mantissa * (POWERS[-scale] as number);
  else {
    const written = ascii.decode(bytes.subarray(start, at));
    value = Math.abs(Number(decimal === POINT ? written : written.replace(',', '.')));
    if (value === 0) return -1;
  }
  if (value > LARGEST) return -1;
  into[slot] = negative && value !== 0 ? -value : value;
  return at;
}

const room = new Float64Array(1);

/** The signs of numbers in a file: the decimal mark, and the marks that may part thousands. */
export interface NumberSigns {
  decimal: { sign: string; byte: number };
  thousands: string;
}

const POINT_ONLY: NumberSigns = { decimal: { sign: '.', byte: POINT }, thousands: '' };

/** A number written as text, by the same grammar; a problem with its words otherwise. */
export function readNumber(
  text: string,
  signs: NumberSigns = POINT_ONLY,
): { value: number } | { code: ProblemCode; said: Said } {
  const bytes = encoder.encode(`${withoutThousands(text, signs)}\n`);
  let at = 0;
  while (bytes[at] === SPACE) at++;
  at = scanNumber(bytes, at, room, 0, signs.decimal.byte);
  if (at >= 0) {
    while (bytes[at] === SPACE) at++;
    if (at === bytes.length - 1) return { value: room[0] as number };
  }
  return whyNoNumber(text.trim(), signs);
}

/** Thousands marks taken out where they stand as they should: one mark throughout, three digits after each. */
function withoutThousands(text: string, { thousands, decimal }: NumberSigns): string {
  if (thousands === '') return text;
  const rest = decimal.sign === '.' ? '(?:\\.\\d*)?' : '(?:,\\d*)?';
  const grouped = new RegExp(`^ *[+-]?\\d{1,3}([${thousands}])\\d{3}(?:\\1\\d{3})*${rest}(?:[eE][+-]?\\d+)? *$`);
  const mark = grouped.exec(text)?.[1];
  return mark === undefined ? text : text.trim().replaceAll(mark, '');
}

function whyNoNumber(text: string, signs: NumberSigns): { code: ProblemCode; said: Said } {
  const comma = signs.decimal.sign === ',';
  const expected = comma
    ? 'a decimal number with a comma, such as 101,3'
    : 'a decimal number with a point, such as 101.3';
  const say = (code: ProblemCode, sentence: string, action: string) => ({
    code,
    said: { sentence, found: text, expected, action },
  });
  const quoted = `"${shown(text)}"`;

  if (text === '')
    return say(
      'number.missing',
      'the cell is empty, and an empty cell is never read as 0.',
      'Export the reading that belongs here, or the record without this column.',
    );
  if (/^[+-]?(nan|inf|infinity|∞)$/i.test(text))
    return say(
      'number.not-finite',
      `${quoted} is no reading a sensor gives.`,
      'Find out why the logger wrote it; export the record without those rows only if they lie outside the run.',
    );
  if (
    /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(comma ? text.replace(',', '.') : text) &&
    !(comma && text.includes('.'))
  )
    return say(
      'number.out-of-range',
      `${quoted} is a number of a magnitude no sensor here has.`,
      'Check the logger’s number format and the column’s scale, and export again.',
    );
  if (comma && /^[+-]?\d*\.\d+(e[+-]?\d+)?$/i.test(text))
    return say(
      'number.syntax',
      `${quoted} is written with a point, and the decimal sign of this layout is a comma.`,
      'Find out whether the logger changed its settings; have a layout with the right decimal sign read the unread file.',
    );
  if (/^[+-]?\d{1,3}((,\d{3})+\.\d*|(,\d{3}){2,}|(['’ \u00a0\u2009\u202f]\d{3})+([.,]\d*)?)$/.test(text))
    return say(
      'number.thousands',
      `${quoted} is not a number here; digits are written without a thousands sign.`,
      'Export without a thousands sign and send the file again, or have a layout that declares it read the unread file.',
    );
  if (!comma && /^[+-]?[\d.]*,\d+(e[+-]?\d+)?$/i.test(text))
    return say(
      'number.decimal-comma',
      `${quoted} is not a number here; the decimal sign is a point.`,
      'Export with a decimal point and send the file again, or have a layout that declares the comma read the unread file.',
    );
  return say(
    'number.syntax',
    `${quoted} is not a number.`,
    'Export numbers only in this column, without unit or word.',
  );
}
