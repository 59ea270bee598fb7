import { type CharacteristicValue } from '@breakbook/lab';
import { convert, printFixed, unitSymbol } from '@breakbook/units';
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

/** "1 842 kPa", or "1 842 kPa (267 psi)" where a second unit is known. A signed number is a difference and shows its sign. */
export function written(value: number, quantity: AxisQuantity, { signed = false } = {}): string {
  const { unit, decimals, second } = quantity;
  const first = withUnit(value, unit, decimals, signed);
  if (!second) return first;
  const other = convert(value, unit, second.unit, { difference: signed });
  return `${first} (${withUnit(other, second.unit, second.decimals, signed)})`;
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

function withUnit(value: number, unit: string, decimals: number, signed: boolean): string {
  const symbol = unitSymbol(unit);
  return `${signed && value > 0 ? '+' : ''}${printFixed(value, decimals)}${symbol === '' ? '' : ` ${symbol}`}`;
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
