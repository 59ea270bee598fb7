import { type NotEvaluated, notEvaluated } from '@breakbook/lab';
import { requireFinite, requirePositive } from '../requirements.js';

/** One specimen, struck once. */
export interface StaircaseTrial {
  /** In any one unit. */
  level: number;
  broke: boolean;
}

export interface Staircase {
  method: 'staircase';
  /** Level at which half of the population breaks. */
  mean: number;
  /** Standard deviation of the level at which a specimen breaks; a stand-in where `valid` is false. */
  sd: number;
  /** The rarer outcome, which is counted; failures on a tie. */
  counted: 'failures' | 'survivals';
  /** How many of the counted outcome, and the sums of their steps above the lowest and of the squares of these. */
  n: number;
  a: number;
  b: number;
  /** Variance of those steps. */
  m: number;
  /** True where m is at least 0.3, from which on the source lets the scatter be estimated. */
  valid: boolean;
  /** Where the staircase goes on. */
  nextLevel: number;
  /** Trials whose level does not follow from the one before, from 0. */
  departures: number[];
}

/** Below it the source takes no estimate of the scatter from m. */
const LEAST_VARIANCE = 0.3;

/**
 * At what level does half of a population break, when each specimen is struck one step lower than the one before if that
 * broke, and one step higher if it held?
 *
 *     mean = h0 + step (a / n - 1/2)     counting failures (+ 1/2 counting survivals)
 *     sd = 1.62 step (m + 0.029),  m = (n b - a^2) / n^2;      0.53 step where m < 0.3
 *
 * over the rarer outcome, n times in all: h0 its lowest level, i the steps above it, a = sum of i, b = sum of i^2.
 *
 * Assumes the level at which a specimen breaks normal, steps near its standard deviation (half to twice), and at least
 * some 10 specimens; about 30 for a scatter worth the name. Smallest: one of each outcome.
 *
 * Source: Dixon and Mood (1948), J. Amer. Statist. Assoc. 43, 109-126; stand-in of the scatter: ISO 12107:2012.
 */
export function staircase(trials: readonly StaircaseTrial[], step: number): Staircase | NotEvaluated {
  requirePositive('staircase', { step });
  trials.forEach(({ level }, index) => {
    requireFinite('staircase', { [`trials[${index}].level`]: level });
  });
  const [first] = trials;
  if (first === undefined) return notEvaluated('there are no trials', 'specimens are struck');
  trials.forEach(({ level }, index) => {
    const steps = (level - first.level) / step;
    if (Math.abs(steps - Math.round(steps)) > 1e-6 * Math.max(1, Math.abs(steps)))
      throw new RangeError(
        `staircase: trials[${index}].level is ${level}, which is no whole number of steps of ${step} from ${first.level}.`,
      );
  });

  const broke = trials.filter((trial) => trial.broke);
  const held = trials.filter((trial) => !trial.broke);
  const counted = broke.length <= held.length ? 'failures' : 'survivals';
  const levels = (counted === 'failures' ? broke : held).map(({ level }) => level);
  const n = levels.length;
  if (n === 0)
    return notEvaluated(
      broke.length === 0 ? 'no specimen broke' : 'every specimen broke',
      'the staircase goes on until both outcomes are seen',
    );
  const lowest = levels.reduce((least, level) => Math.min(least, level));
  const steps = levels.map((level) => Math.round((level - lowest) / step));
  const a = steps.reduce((sum, i) => sum + i, 0);
  const b = steps.reduce((sum, i) => sum + i * i, 0);
  const m = (n * b - a * a) / (n * n);
  const valid = m >= LEAST_VARIANCE;
  return {
    method: 'staircase',
    mean: lowest + step * (a / n + (counted === 'failures' ? -0.5 : 0.5)),
    sd: valid ? 1.62 * step * (m + 0.029) : 0.53 * step,
    counted,
    n,
    a,
    b,
    m,
    valid,
    nextLevel: after(trials.at(-1) ?? first, step),
    departures: trials.flatMap((trial, index) => {
      const before = trials[index - 1];
      return before === undefined || Math.abs(trial.level - after(before, step)) < step / 2 ? [] : [index];
    }),
  };
}

function after({ level, broke }: StaircaseTrial, step: number): number {
  return broke ? level - step : level + step;
}
