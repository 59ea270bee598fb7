import { type CharacteristicValue, type Language, numeral } from '@breakbook/lab';
import { decimalsBeside, printFixed, unitSymbol } from '@breakbook/units';
import { sayIn } from './say.js';

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
  language: Language = 'en',
): string {
  const say = sayIn(language);
  const one = (number: number) => {
    const printed = printFixed(number, decimalsBeside(number, options.uncertainty, options.limits ?? []));
    return withUnit(numeral(printed, language), unit);
  };
  switch (value.kind) {
    case 'exact':
      return one(value.value);
    case 'atLeast':
      return say('at least {value}', { value: one(value.value) });
    case 'atMost':
      return say('at most {value}', { value: one(value.value) });
    case 'between':
      return say('between {lower} and {upper}', { lower: one(value.lower), upper: one(value.upper) });
  }
}

/** A lower bound rounded down, so that print never claims more than was computed. */
export function boundInWords(
  bound: number,
  unit: string,
  limits: readonly number[] = [],
  language: Language = 'en',
): string {
  const decimals = decimalsBeside(bound, undefined, limits);
  const rounded = Number(bound.toFixed(decimals));
  const down = rounded > bound ? rounded - 10 ** -decimals : rounded;
  return withUnit(numeral(printFixed(down, decimals), language), unit);
}
