import { boundInWords, valueInWords, withUnit } from '@breakbook/acceptance';
import type { CharacteristicValue } from '@breakbook/lab';
import { converter, decimalsBeside, decimalsFor, printDeclared, printDown, printFixed } from '@breakbook/units';
import { PLAIN, type Printing } from './printing.js';

type Words = Pick<Printing, 'language' | 'number' | 'units'>;
/** A number in the unit printed, and the same in the unit beside it; empty where there is none. */
type Twice = [first: string, second: string];

export interface Measured {
  value: CharacteristicValue;
  unit: string;
  uncertainty?: number;
  /** Limits it is set against: enough digits are printed to keep it on its side of them. */
  limits?: readonly number[];
}

function twice(unit: string, { units }: Words, one: (code: string) => string): Twice {
  const first = units.of(unit);
  const second = units.second(first);
  return [one(first), second === undefined ? '' : one(second)];
}

/** `1 842 kPa`, and the same in the second unit where there is one. */
export function measuredInWords({ value, unit, uncertainty, limits = [] }: Measured, words: Words = PLAIN): Twice {
  return twice(unit, words, (code) => {
    const into = converter(unit, code);
    const difference = converter(unit, code, { difference: true });
    const options = {
      limits: limits.map(into),
      ...(uncertainty === undefined ? {} : { uncertainty: difference(uncertainty) }),
    };
    return valueInWords(mapped(value, into), code, options, words.language);
  });
}

/** An uncertainty, to two significant digits. */
export function uncertaintyInWords(expanded: number, unit: string, words: Words = PLAIN): Twice {
  return twice(unit, words, (code) => {
    const value = converter(unit, code, { difference: true })(expanded);
    return withUnit(words.number(printFixed(value, decimalsBeside(value, value, []))), code);
  });
}

/**
 * A difference of two values, to the place that what is beside it, such as its limits, deserves. It shows its sign where it
 * may have either.
 */
export function differenceInWords(
  difference: number,
  unit: string,
  words: Words = PLAIN,
  { limits, signed = true }: { limits?: readonly [number, number] | undefined; signed?: boolean } = {},
): Twice {
  return twice(unit, words, (code) => {
    const into = converter(unit, code, { difference: true });
    const value = into(difference);
    const decimals = limits
      ? decimalsFor(into(limits[1] - limits[0]) / 2)
      : decimalsBeside(value, undefined, [into(0)]);
    const printed = words.number(printFixed(value, decimals));
    return withUnit(signed && Number(value.toFixed(decimals)) > 0 ? `+${printed}` : printed, code);
  });
}

/** A limit as it was declared; where it was converted, without what the conversion adds behind its digits. */
export function declaredInWords(value: number, unit: string, { number }: Words = PLAIN): string {
  return withUnit(number(printDeclared(Number(value.toPrecision(12)))), unit);
}

/** What stands beside a limit in its own unit: the same in the units of the document, and in the second one. */
export function besideInWords(value: number, unit: string, words: Words = PLAIN): string {
  const printed = measuredInWords({ value: { kind: 'exact', value }, unit }, words);
  return (words.units.of(unit) === unit ? printed.slice(1) : printed).filter((text) => text !== '').join(', ');
}

/**
 * A number that somebody wrote down, such as a mass, with the digits it was written with. Converted it keeps the place of
 * the last of them, no coarser: a kilogram to 0.01 is an ounce to 0.1. `beside` is another that is printed with it.
 */
export function quantityInWords(
  value: number,
  unit: string,
  { number, units }: Words = PLAIN,
  beside: number = value,
): string {
  const code = units.of(unit);
  if (code === unit) return withUnit(number(printDeclared(value)), unit);
  const written = Math.max(decimalsOf(value), decimalsOf(beside));
  const place = converter(unit, code, { difference: true })(10 ** -written);
  // A hair below a power of ten is that power.
  const decimals = Math.max(0, -Math.floor(Math.log10(place) + 1e-9));
  return withUnit(number(printFixed(converter(unit, code)(value), decimals)), code);
}

function decimalsOf(value: number): number {
  return printDeclared(value).split('.')[1]?.length ?? 0;
}

/** A lower bound, rounded down. */
export function boundInUnits(bound: number, unit: string, limit: number, words: Words = PLAIN): Twice {
  return twice(unit, words, (code) => {
    const into = converter(unit, code);
    return boundInWords(into(bound), code, [into(limit)], words.language);
  });
}

/** A distance to a limit with its sign, rounded down so that it never looks larger than it is. */
export function marginInWords(
  margin: number,
  { unit, value, limit, uncertainty }: { unit: string; value: number; limit: number; uncertainty?: number },
  words: Words = PLAIN,
): Twice {
  return twice(unit, words, (code) => {
    const into = converter(unit, code);
    const difference = converter(unit, code, { difference: true });
    const decimals =
      uncertainty === undefined
        ? // A value of nothing has no digits to go by; its limit has.
          Math.max(decimalsBeside(into(value), undefined, [into(limit)]), decimalsBeside(into(limit), undefined, []))
        : decimalsBeside(into(value), difference(uncertainty), [into(limit)]);
    const printed = words.number(printDown(difference(margin), decimals));
    return withUnit(margin > 0 ? `+${printed}` : printed, code);
  });
}

/** Two wordings of one number in one line: `1 578 kPa (228 psi)`. */
export function both([first, second]: Readonly<Twice>): string {
  return second === '' ? first : `${first} (${second})`;
}

/** A value in another unit. */
export function mapped(value: CharacteristicValue, into: (value: number) => number): CharacteristicValue {
  return value.kind === 'between'
    ? { kind: 'between', lower: into(value.lower), upper: into(value.upper) }
    : { kind: value.kind, value: into(value.value) };
}
