import { normalQuantile } from '@breakbook/statistics';
import { extent } from 'd3-array';
import { ENGLISH, type FigureLanguage } from '../language.js';

/** Distributions that have a paper of their own. */
export type PaperDistribution = 'weibull' | 'normal' | 'lognormal';

/** A fitted distribution; values in the unit of the axis. */
export type FittedDistribution =
  | { distribution: 'weibull'; shape: number; scale: number }
  | { distribution: 'normal'; mean: number; sd: number }
  /** `logSd` is the standard deviation of the natural logarithm, a pure number. */
  | { distribution: 'lognormal'; median: number; logSd: number };

/** Scales on which one distribution is a straight line, whatever its parameters. */
export interface Paper {
  /** Of values. */
  logarithmic: boolean;
  /** Of fractions: the quantile of the distribution's standard form. */
  height: (fraction: number) => number;
}

/**
 * Weibull: ln(-ln(1 - F)) over ln(value). Normal and lognormal: the standard normal quantile of F, over the value and over its
 * logarithm.
 */
export const PAPERS: Record<PaperDistribution, Paper> = {
  weibull: { logarithmic: true, height: (fraction) => Math.log(-Math.log1p(-fraction)) },
  normal: { logarithmic: false, height: normalQuantile },
  lognormal: { logarithmic: true, height: normalQuantile },
};

/** Where the line of a fitted distribution meets a fraction. */
export function onLine(fit: FittedDistribution, fraction: number): number {
  const z = PAPERS[fit.distribution].height(fraction);
  switch (fit.distribution) {
    case 'weibull':
      return fit.scale * Math.exp(z / fit.shape);
    case 'normal':
      return fit.mean + fit.sd * z;
    case 'lognormal':
      return fit.median * Math.exp(fit.logSd * z);
  }
}

/** The same distribution of values in another unit; a logarithm's deviation and a shape are the same in every one. */
export function fitInto(
  fit: FittedDistribution,
  into: (value: number) => number,
  difference: (value: number) => number,
): FittedDistribution {
  switch (fit.distribution) {
    case 'weibull':
      return { ...fit, scale: into(fit.scale) };
    case 'normal':
      return { ...fit, mean: into(fit.mean), sd: difference(fit.sd) };
    case 'lognormal':
      return { ...fit, median: into(fit.median) };
  }
}

/** The fractions a plot shows: from 1 % to 99 %, further where points or bound lie further out. */
export function fractionRange(fractions: readonly number[]): [number, number] {
  const [low = 0.01, high = 0.99] = extent(fractions);
  return [Math.min(0.01, low * 0.7), Math.max(0.99, 1 - (1 - high) * 0.7)];
}

/** The values a plot shows, with a little room on both sides; on a logarithmic scale only those above 0. */
export function valueRange(values: readonly number[], { logarithmic }: Pick<Paper, 'logarithmic'>): [number, number] {
  if (!logarithmic) {
    const [low = 0, high = 1] = extent(values);
    const room = (high - low) * 0.06 || Math.abs(high) * 0.01 || 1;
    return [low - room, high + room];
  }
  const [low = 1, high = 10] = extent(values.filter((value) => value > 0));
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
  paper: Pick<Paper, 'height'>,
  { numeral }: Pick<FigureLanguage, 'numeral'> = ENGLISH,
): { ticks: number[]; format: (percent: number) => string } {
  const pointsPerUnit = height / (paper.height(high) - paper.height(low));
  const at = (percent: number) => paper.height(percent / 100) * pointsPerUnit;
  const ticks: number[] = [];
  for (const percent of PERCENTS) {
    const inside = percent / 100 >= low && percent / 100 <= high;
    if (inside && ticks.every((other) => Math.abs(at(other) - at(percent)) >= CLOSEST)) ticks.push(percent);
  }
  return { ticks: ticks.sort((a, b) => a - b), format: (percent) => numeral(String(percent)) };
}
