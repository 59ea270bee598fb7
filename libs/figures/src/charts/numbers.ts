import { printFixed, unitSymbol } from '@breakbook/units';
import { tickStep, ticks } from 'd3-array';

/** What an axis measures. */
export interface AxisQuantity {
  title: string;
  /** UCUM code. */
  unit: string;
  reference?: 'gauge' | 'absolute';
  /** UCUM code of a second unit readers know, such as psi beside kPa. */
  second?: string;
}

/** "burst pressure, kPa (gauge)" */
export function axisTitle({ title, unit, reference }: AxisQuantity): string {
  const symbol = unitSymbol(unit);
  return `${title}${symbol === '' ? '' : `, ${symbol}`}${reference === undefined ? '' : ` (${reference})`}`;
}

/** "burst pressure (gauge), kPa above, psi below" */
export function twoUnitTitle({ title, unit, reference }: AxisQuantity, second: string): string {
  const named = reference === undefined ? title : `${title} (${reference})`;
  return `${named}, ${unitSymbol(unit)} above, ${unitSymbol(second)} below`;
}

/** Words for a place in a picture, and shorter ones for where room is scarce. They come with the numbers, made elsewhere. */
export interface Wording {
  full: string;
  short: string;
}

const ROOM_FOR_FULL_WORDS = 320;

/** The full words in a picture wide enough for them, else the short ones. */
export function wordsAt({ full, short }: Wording, width: number): string {
  return width < ROOM_FOR_FULL_WORDS ? short : full;
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
