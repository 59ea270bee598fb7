import { extent } from 'd3-array';
import { ENGLISH, type FigureLanguage } from '../language.js';

/** y of a Weibull probability plot before it is scaled to points: ln(-ln(1 - F)). */
export function weibullScale(fraction: number): number {
  return Math.log(-Math.log1p(-fraction));
}

/** Where the line of a Weibull distribution meets a fraction: scale · (-ln(1 - F))^(1/shape). */
export function onLine({ shape, scale }: { shape: number; scale: number }, fraction: number): number {
  return scale * Math.exp(weibullScale(fraction) / shape);
}

/** The fractions a plot shows: from 1 % to 99 %, further where points or bound lie further out. */
export function fractionRange(fractions: readonly number[]): [number, number] {
  const [low = 0.01, high = 0.99] = extent(fractions);
  return [Math.min(0.01, low * 0.7), Math.max(0.99, 1 - (1 - high) * 0.7)];
}

/** The values a plot shows, on a logarithmic scale, with a little room on both sides. */
export function valueRange(values: readonly number[]): [number, number] {
  const positive = values.filter((value) => value > 0);
  const [low = 1, high = 10] = extent(positive);
  const room = Math.max((high / low) ** 0.06, 1.01);
  return [low / room, high * room];
}

/** Percentages worth a line, the most telling first: 63.2 % is where the scale is read. */
const PERCENTS = [10, 50, 90, 1, 99, 63.2, 5, 0.1, 99.9, 20, 2, 0.01, 30, 80, 0.5, 0.05, 95, 70, 40, 0.2, 0.02];
const CLOSEST = 9;

/** The percentages that fit on an axis of this height without their numbers touching. */
export function percentTicks(
  [low, high]: readonly [number, number],
  height: number,
  { numeral }: Pick<FigureLanguage, 'numeral'> = ENGLISH,
): { ticks: number[]; format: (percent: number) => string } {
  const pointsPerUnit = height / (weibullScale(high) - weibullScale(low));
  const at = (percent: number) => weibullScale(percent / 100) * pointsPerUnit;
  const ticks: number[] = [];
  for (const percent of PERCENTS) {
    const inside = percent / 100 >= low && percent / 100 <= high;
    if (inside && ticks.every((other) => Math.abs(at(other) - at(percent)) >= CLOSEST)) ticks.push(percent);
  }
  return { ticks: ticks.sort((a, b) => a - b), format: (percent) => numeral(String(percent)) };
}
