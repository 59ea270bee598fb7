import { convert } from './convert.js';
import type { Quantity } from './quantity.js';

/** How a unit is written for people; codes that read well already stand as they are. */
const SYMBOLS: Record<string, string> = {
  '[psi]': 'psi',
  '[psi]/s': 'psi/s',
  '[lbf_av]': 'lbf',
  '[lb_av]': 'lb',
  '[oz_av]': 'oz',
  '[in_i]': 'in',
  '[ft_i].[lbf_av]': 'ft·lbf',
  '[mi_i]/h': 'mph',
  '[g]': 'g',
  '[degF]': '°F',
  Cel: '°C',
  deg: '°',
  us: 'µs',
  'N.m': 'N·m',
  'kPa.s': 'kPa·s',
  'K.s': 'K·s',
  'K.min': 'K·min',
  'W.h': 'Wh',
  'm/s2': 'm/s²',
  '{ShoreA}': 'Shore A',
  '1': '',
};

export function unitSymbol(code: string): string {
  return SYMBOLS[code] ?? code;
}

/** Thin no-break space between groups of three digits, as ISO 80000-1 (7.3.1) writes numbers. */
const THIN = '\u202f';
const MINUS = '\u2212';

/** A number with this many decimals, digits grouped by three, with a true minus sign. */
export function printFixed(value: number, decimals: number): string {
  const [whole = '0', fraction] = Math.abs(value).toFixed(Math.max(0, decimals)).split('.');
  const grouped = whole.replace(/\B(?=(\d{3})+$)/g, THIN);
  const digits = fraction === undefined ? grouped : `${grouped}.${fraction}`;
  return value < 0 && Number(digits.replaceAll(THIN, '')) !== 0 ? `${MINUS}${digits}` : digits;
}

/**
 * Decimals that a value printed with this uncertainty deserves: U keeps two significant digits and the value
 * is rounded to the same place (GUM, JCGM 100:2008, 7.2.6).
 */
export function decimalsFor(uncertainty: number): number {
  if (!(uncertainty > 0)) return 0;
  const exponent = Math.floor(Math.log10(uncertainty));
  // 0.0996 rounds up into the next decade; asking the printed digits settles it.
  const rounded = Number(uncertainty.toPrecision(2));
  return Math.max(0, 1 - (rounded >= 10 ** (exponent + 1) ? exponent + 1 : exponent));
}

/** More decimals than this say nothing of a measured value. */
const MOST_DECIMALS = 12;

/** A declared number, such as a limit, with every digit it was declared with. */
export function printDeclared(value: number): string {
  for (let decimals = 0; decimals < MOST_DECIMALS; decimals++)
    if (Number(value.toFixed(decimals)) === value) return printFixed(value, decimals);
  return printFixed(value, MOST_DECIMALS);
}

/**
 * Decimals for a measured value: those its uncertainty deserves, four significant digits where none is stated, and
 * more where fewer would print the value on the other side of a limit than it lies.
 */
export function decimalsBeside(value: number, uncertainty: number | undefined, limits: readonly number[]): number {
  let decimals = uncertainty === undefined ? fourDigits(value) : decimalsFor(uncertainty);
  const keepsItsSide = () => {
    const printed = Number(value.toFixed(decimals));
    return limits.every((limit) => Math.sign(printed - limit) === Math.sign(value - limit));
  };
  while (decimals < MOST_DECIMALS && !keepsItsSide()) decimals++;
  return decimals;
}

function fourDigits(value: number): number {
  if (value === 0) return 0;
  return Math.max(0, 3 - Math.floor(Math.log10(Math.abs(value))));
}

/** What arithmetic in doubles adds to a number, as a share of it. */
const NOISE = 1e-13;

/** A number rounded down: a lower bound, or what is left above a limit, must not grow by being printed. */
export function printDown(value: number, decimals: number): string {
  const nearest = Number(value.toFixed(decimals));
  // 0.5 − 0.04 is 0.45999999999999996 in binary: what stands so near to a printed number is that number.
  const grows = nearest - value > NOISE * Math.abs(value);
  return printFixed(grows ? nearest - 10 ** -decimals : nearest, decimals);
}

/** A number to this many significant digits, never in exponent form between 1e-6 and 1e15. */
export function printSignificant(value: number, digits: number): string {
  if (value === 0) return '0';
  const exponent = Math.floor(Math.log10(Math.abs(Number(value.toPrecision(digits)))));
  // A probability may be as small as 1e-200, which nobody reads as a row of zeros.
  if (exponent < -20) return value.toExponential(digits - 1);
  return printFixed(Number(value.toPrecision(digits)), digits - 1 - exponent);
}

/** `1 842 kPa`, or `1 842 ± 14 kPa` when an expanded uncertainty is given in the same unit. */
export function printQuantity(
  quantity: Quantity,
  options: { uncertainty?: number; digits?: number; unit?: string } = {},
): string {
  const unit = options.unit ?? quantity.unit;
  const value = convert(quantity.value, quantity.unit, unit);
  const symbol = unitSymbol(unit);
  const tail = symbol === '' ? '' : ` ${symbol}`;
  if (options.uncertainty === undefined) return `${printSignificant(value, options.digits ?? 4)}${tail}`;
  const uncertainty = convert(options.uncertainty, quantity.unit, unit, { difference: true });
  const decimals = decimalsFor(uncertainty);
  return `${printFixed(value, decimals)} ± ${printFixed(uncertainty, decimals)}${tail}`;
}
