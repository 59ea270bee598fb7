import { type CharacteristicValue } from '@breakbook/lab';
import { decimalsBeside, printFixed, unitSymbol } from '@breakbook/units';

/** A number with its unit's symbol. */
export function withUnit(printed: string, unit: string): string {
  const symbol = unitSymbol(unit);
  return symbol === '' ? printed : `${printed} ${symbol}`;
}

/** `1 842 kPa`, or `at least 1 842 kPa` where the value is known from one side only. */
export function valueInWords(
  value: CharacteristicValue,
  unit: string,
  options: { uncertainty?: number; limits?: readonly number[] } = {},
): string {
  const one = (number: number) =>
    withUnit(printFixed(number, decimalsBeside(number, options.uncertainty, options.limits ?? [])), unit);
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
  const decimals = decimalsBeside(bound, undefined, limits);
  const rounded = Number(bound.toFixed(decimals));
  const down = rounded > bound ? rounded - 10 ** -decimals : rounded;
  return withUnit(printFixed(down, decimals), unit);
}
