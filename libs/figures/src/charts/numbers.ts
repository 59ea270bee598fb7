import type { CharacteristicValue } from '@breakbook/lab';
import { convert, converter, decimalsBeside, printDown, printFixed, unitSymbol } from '@breakbook/units';
import { tickStep, ticks } from 'd3-array';
import { ENGLISH, type FigureLanguage } from '../language.js';

/** What an axis measures and how its values are written. */
export interface AxisQuantity {
  title: string;
  /** UCUM code. */
  unit: string;
  reference?: 'gauge' | 'absolute';
  /** Decimals that single values deserve, in `unit`. */
  decimals: number;
  /** A second unit readers know, such as psi beside kPa. */
  second?: { unit: string; decimals: number };
  /** English where left out. */
  language?: FigureLanguage;
}

/** "burst pressure, kPa (gauge)" */
export function axisTitle({
  title,
  unit,
  reference,
  language = ENGLISH,
}: Pick<AxisQuantity, 'title' | 'unit' | 'reference' | 'language'>): string {
  const symbol = unitSymbol(unit);
  return `${title}${symbol === '' ? '' : `, ${symbol}`}${reference === undefined ? '' : ` (${language.say(reference)})`}`;
}

/** "burst pressure (gauge), kPa above, psi below" */
export function twoUnitTitle({ title, unit, reference, language = ENGLISH }: AxisQuantity, second: string): string {
  const quantity = reference === undefined ? title : `${title} (${language.say(reference)})`;
  return language.say('{quantity}, {first} above, {second} below', {
    quantity,
    first: unitSymbol(unit),
    second: unitSymbol(second),
  });
}

/** "1 842 kPa", or "1 842 kPa (267 psi)" where a second unit is known. */
export function written(value: number, { unit, decimals, second, language = ENGLISH }: AxisQuantity): string {
  const one = (number: number, digits: number, code: string) =>
    withUnit(language.numeral(printFixed(number, digits)), code);
  const first = one(value, decimals, unit);
  return second ? `${first} (${one(convert(value, unit, second.unit), second.decimals, second.unit)})` : first;
}

/**
 * A lower bound, or what lies between it and a limit: rounded down, with as many digits as keep it on its side of
 * the limit. A distance shows its sign.
 */
export function writtenDown(
  value: number,
  { unit, second, language = ENGLISH }: AxisQuantity,
  { limit, distance = false }: { limit?: number; distance?: boolean } = {},
): string {
  const one = (code: string) => {
    const into = converter(unit, code);
    const beside = limit === undefined ? [] : [into(limit)];
    const shown = distance ? into(value) - (beside[0] ?? 0) : into(value);
    const printed = language.numeral(printDown(shown, decimalsBeside(into(value), undefined, beside)));
    return withUnit(distance && shown > 0 ? `+${printed}` : printed, code);
  };
  return second ? `${one(unit)} (${one(second.unit)})` : one(unit);
}

/** The same quantity written in its first unit alone. */
export function oneUnit({ second: _, ...quantity }: AxisQuantity): AxisQuantity {
  return quantity;
}

/** A value as far as it is known: "at least 2 000 kPa". */
export function valueWritten(value: CharacteristicValue, quantity: AxisQuantity): string {
  const { say } = quantity.language ?? ENGLISH;
  switch (value.kind) {
    case 'exact':
      return written(value.value, quantity);
    case 'atLeast':
      return say('at least {value}', { value: written(value.value, quantity) });
    case 'atMost':
      return say('at most {value}', { value: written(value.value, quantity) });
    case 'between':
      return say('between {lower} and {upper}', {
        lower: written(value.lower, quantity),
        upper: written(value.upper, quantity),
      });
  }
}

function withUnit(printed: string, unit: string): string {
  const symbol = unitSymbol(unit);
  return symbol === '' ? printed : `${printed} ${symbol}`;
}

/** About `count` round numbers between two, and how to write them so that neighbours differ. */
export function roundTicks(
  from: number,
  to: number,
  count: number,
  { numeral }: Pick<FigureLanguage, 'numeral'> = ENGLISH,
): { ticks: number[]; format: (value: number) => string } {
  const decimals = Math.max(0, -Math.floor(Math.log10(tickStep(from, to, count)) + 1e-9));
  return { ticks: ticks(from, to, count), format: (value) => numeral(printFixed(value, decimals)) };
}
