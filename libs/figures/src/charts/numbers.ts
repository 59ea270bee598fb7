import { type CharacteristicValue } from '@breakbook/lab';
import { convert, converter, decimalsBeside, printDown, printFixed, unitSymbol } from '@breakbook/units';
import { tickStep, ticks } from 'd3-array';

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
}

/** "burst pressure, kPa (gauge)" */
export function axisTitle({ title, unit, reference }: Pick<AxisQuantity, 'title' | 'unit' | 'reference'>): string {
  const symbol = unitSymbol(unit);
  return `${title}${symbol === '' ? '' : `, ${symbol}`}${reference === undefined ? '' : ` (${reference})`}`;
}

/** "burst pressure (gauge), kPa above, psi below" */
export function twoUnitTitle({ title, unit, reference }: AxisQuantity, second: string): string {
  const named = reference === undefined ? title : `${title} (${reference})`;
  return `${named}, ${unitSymbol(unit)} above, ${unitSymbol(second)} below`;
}

/** "1 842 kPa", or "1 842 kPa (267 psi)" where a second unit is known. */
export function written(value: number, { unit, decimals, second }: AxisQuantity): string {
  const first = withUnit(printFixed(value, decimals), unit);
  if (!second) return first;
  return `${first} (${withUnit(printFixed(convert(value, unit, second.unit), second.decimals), second.unit)})`;
}

/**
 * A lower bound, or what lies between it and a limit: rounded down, with as many digits as keep it on its side of
 * the limit. A distance shows its sign.
 */
export function writtenDown(
  value: number,
  { unit, second }: AxisQuantity,
  { limit, distance = false }: { limit?: number; distance?: boolean } = {},
): string {
  const one = (code: string) => {
    const into = converter(unit, code);
    const beside = limit === undefined ? [] : [into(limit)];
    const shown = distance ? into(value) - (beside[0] ?? 0) : into(value);
    const printed = printDown(shown, decimalsBeside(into(value), undefined, beside));
    return withUnit(distance && shown > 0 ? `+${printed}` : printed, code);
  };
  return second ? `${one(unit)} (${one(second.unit)})` : one(unit);
}

/** The same quantity written in its first unit alone. */
export function oneUnit({ title, unit, reference, decimals }: AxisQuantity): AxisQuantity {
  return { title, unit, decimals, ...(reference === undefined ? {} : { reference }) };
}

/** A value as far as it is known: "at least 2 000 kPa". */
export function valueWritten(value: CharacteristicValue, quantity: AxisQuantity): string {
  switch (value.kind) {
    case 'exact':
      return written(value.value, quantity);
    case 'atLeast':
      return `at least ${written(value.value, quantity)}`;
    case 'atMost':
      return `at most ${written(value.value, quantity)}`;
    case 'between':
      return `between ${written(value.lower, quantity)} and ${written(value.upper, quantity)}`;
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
): { ticks: number[]; format: (value: number) => string } {
  const decimals = Math.max(0, -Math.floor(Math.log10(tickStep(from, to, count)) + 1e-9));
  return { ticks: ticks(from, to, count), format: (value) => printFixed(value, decimals) };
}
