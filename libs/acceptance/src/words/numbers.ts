import { type CharacteristicValue } from '@breakbook/lab';
import { decimalsFor, printFixed, unitSymbol } from '@breakbook/units';

/** More decimals than this say nothing of a measured value. */
const MOST_DECIMALS = 12;

/** A number with its unit's symbol. */
export function withUnit(printed: string, unit: string): string {
  const symbol = unitSymbol(unit);
  return symbol === '' ? printed : `${printed} ${symbol}`;
}

/** A declared number, such as a limit, with every digit it was declared with. */
export function asDeclared(value: number): string {
  for (let decimals = 0; decimals < MOST_DECIMALS; decimals++)
    if (Number(value.toFixed(decimals)) === value) return printFixed(value, decimals);
  return printFixed(value, MOST_DECIMALS);
}

/**
 * Decimals for a measured value: those its uncertainty deserves (JCGM 100:2008, 7.2.6), four significant digits where
 * none is stated, and more where fewer would print the value on the other side of a limit than it lies.
 */
export function decimalsOf(value: number, uncertainty: number | undefined, limits: readonly number[]): number {
  let decimals = uncertainty === undefined ? fourDigits(value) : decimalsFor(uncertainty);
  const keepsItsSide = () => {
    const printed = Number(value.toFixed(decimals));
    return limits.every((limit) => Math.sign(printed - limit) === Math.sign(value - limit));
  };
  while (decimals < MOST_DECIMALS && !keepsItsSide()) decimals++;
  return decimals;
}

/** `1 842 kPa`, or `at least 1 842 kPa` where the value is known from one side only. */
export function valueInWords(
  value: CharacteristicValue,
  unit: string,
  options: { uncertainty?: number; limits?: readonly number[] } = {},
): string {
  const one = (number: number) =>
    withUnit(printFixed(number, decimalsOf(number, options.uncertainty, options.limits ?? [])), unit);
  switch (value.kind) {
    case 'exact':
      return one(value.value);
    case 'atLeast':
      return `at least ${one(value.value)}`;
    case 'atMost':
      return `at most ${one(value.value)}`;
    case 'between':
      return `between ${one(value.lower)} and ${one(value.upper)}`;
  }
}

/** A lower bound rounded down, so that print never claims more than was computed. */
export function boundInWords(bound: number, unit: string, limits: readonly number[] = []): string {
  const decimals = decimalsOf(bound, undefined, limits);
  const rounded = Number(bound.toFixed(decimals));
  const down = rounded > bound ? rounded - 10 ** -decimals : rounded;
  return withUnit(printFixed(down, decimals), unit);
}

function fourDigits(value: number): number {
  if (value === 0) return 0;
  return Math.max(0, 3 - Math.floor(Math.log10(Math.abs(value))));
}
