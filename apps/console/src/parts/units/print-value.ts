import type { CharacteristicValue } from '@breakbook/lab';
import {
  convert,
  decimalsBeside,
  decimalsFor,
  printDeclared,
  printDown,
  printFixed,
  printSignificant,
  unitSymbol,
} from '@breakbook/units';
import { shownUnit, type UnitChoice } from './reader-unit.js';
import { unbroken } from './retell.js';

/** How this reader wants numbers: in which units, and rounded to what they deserve or with every digit. */
export interface ReaderChoice {
  units: UnitChoice;
  digits: 'rounded' | 'full';
}

/** What stands around a value and decides how finely it must be printed; all in the value's own unit. */
export interface Beside {
  uncertainty?: number;
  limits?: readonly number[];
  /** A value below its limit must not be printed as the limit, and a bound must not be printed above itself. */
  bound?: boolean;
  /** Another value whose fineness this one takes: a distance is printed as finely as what it was measured from. */
  asFineAs?: number;
  /** A difference, such as a margin, shows its sign. */
  signed?: boolean;
}

/** The number alone, in the reader's unit: `1 842`, or `at least 2 000` where it is known from one side. */
export function printValue(
  value: CharacteristicValue,
  unit: string,
  reader: ReaderChoice,
  beside: Beside = {},
): string {
  const one = (number: number) => printNumber(number, unit, reader, beside);
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

export function printNumber(value: number, unit: string, reader: ReaderChoice, beside: Beside = {}): string {
  const shown = shownUnit(unit, reader.units);
  const into = (number: number) => convert(number, unit, shown);
  const converted = convert(value, unit, shown, beside.signed ? { difference: true } : {});
  const sign = beside.signed && converted > 0 ? '+' : '';
  if (reader.digits === 'full') return unbroken(`${sign}${everyDigit(converted)}`);

  const uncertainty =
    beside.uncertainty === undefined ? undefined : convert(beside.uncertainty, unit, shown, { difference: true });
  const finer = beside.asFineAs === undefined ? converted : convert(beside.asFineAs, unit, shown);
  const decimals = decimalsBeside(finer, uncertainty, (beside.limits ?? []).map(into));
  return unbroken(`${sign}${beside.bound ? printDown(converted, decimals) : printFixed(converted, decimals)}`);
}

/** A declared number: every digit it was given in its own unit, and four significant ones in another. */
export function printDeclaredNumber(value: number, unit: string, reader: ReaderChoice): string {
  return shownUnit(unit, reader.units) === unit ? unbroken(printDeclared(value)) : printNumber(value, unit, reader);
}

/** A number without a unit, such as the shape of a distribution. */
export function printPure(value: number, reader: ReaderChoice): string {
  return unbroken(reader.digits === 'full' ? everyDigit(value) : printSignificant(value, 4));
}

/** An expanded uncertainty: two significant digits. */
export function printUncertainty(expanded: number, unit: string, reader: ReaderChoice): string {
  const shown = convert(expanded, unit, shownUnit(unit, reader.units), { difference: true });
  return unbroken(reader.digits === 'full' ? everyDigit(shown) : printFixed(shown, decimalsFor(shown)));
}

/** A value with its unit, as in a sentence. */
export function printAmount(
  value: CharacteristicValue,
  unit: string,
  reader: ReaderChoice,
  beside: Beside = {},
): string {
  return withSymbol(printValue(value, unit, reader, beside), unit, reader);
}

export function withSymbol(printed: string, unit: string, reader: ReaderChoice): string {
  const symbol = unitSymbol(shownUnit(unit, reader.units));
  return symbol === '' ? printed : `${printed}\u00a0${symbol}`;
}

function everyDigit(value: number): string {
  const [, fraction = ''] = value.toString().split('.');
  return printFixed(value, Math.min(fraction.length, 12));
}

const FIGURE_SPACE = '\u2007';
const POINT_SPACE = '\u2008';

/** Numbers of one column, padded at their end so that their decimal signs stand under each other. */
export function alignedAtPoint(column: readonly string[]): string[] {
  const decimals = column.map((text) => /\.(\d+)$/.exec(text)?.[1]?.length ?? 0);
  const most = Math.max(0, ...decimals);
  return column.map((text, row) => {
    const own = decimals[row] ?? 0;
    if (!/\d$/.test(text)) return text;
    return `${text}${own === 0 && most > 0 ? POINT_SPACE : ''}${FIGURE_SPACE.repeat(most - own)}`;
  });
}
