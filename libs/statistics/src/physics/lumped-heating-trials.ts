import { type Generator, seededGenerator } from '../random/generator.js';
import { requireCount } from '../requirements.js';
import { type BodyState, type PiecewiseRecord, refitLumpedHeating } from './lumped-heating-refit.js';

/** An error that is one and the same throughout a record, such as a sensor's calibration. */
export interface RecordError {
  name: string;
  /** Standard uncertainty, in the unit of the sensor. */
  u: number;
  /** What a unit of it adds to every warming, K; and to the power of each piece, W. */
  rise?: number;
  power?: Float64Array;
}

/** Scatter of a record: standard deviations of its warmings, K, and of the power of each piece, W. */
export interface RecordNoise {
  rise: number;
  /** Correlation of a warming's scatter with that of the one before. */
  following: number;
  power: Float64Array;
}

/** Two errors of the whole record that err together, by their places among them. */
export interface ErrorPair {
  between: [number, number];
  r: number;
}

export interface RecordSpread {
  errors: readonly RecordError[];
  noise: RecordNoise;
  together?: readonly ErrorPair[];
}

/** What the trials gave for each number: its standard deviation over them, and each trial's departure from the fit. */
export interface HeatingTrials {
  timeConstant: Float64Array;
  thermalResistance: Float64Array;
  /** Resistance times the mean power of the trial, K. */
  steadyRise: Float64Array;
  /** Trials whose fit did not settle; they are left out. */
  unsettled: number;
}

/**
 * How far may the numbers of a lumped heating be off? Each trial takes the fitted course for the truth, lays errors over it
 * (each error of the whole record drawn once, from a normal law, jointly where two err together; scatter of warmings and
 * powers drawn for every piece), and fits again.
 *
 * Source: JCGM 101:2008, 5.9, 6.4.7 and 6.4.8: propagation of distributions by a Monte Carlo method (from memory); scatter as a
 * first-order autoregression.
 */
export function lumpedHeatingTrials(
  { power, duration }: Pick<PiecewiseRecord, 'power' | 'duration'>,
  fit: BodyState,
  { errors, noise, together = [] }: RecordSpread,
  { trials, seed }: { trials: number; seed: number },
): HeatingTrials {
  requireCount('lumpedHeatingTrials', { trials }, 2);
  const normal = inPairs(seededGenerator(seed));
  const truth = courseOf({ power, duration }, fit);
  const meanOf = meanPowerOver(duration);
  const steady = fit.thermalResistance * meanOf(power);
  const mixing = mixingOf(errors.length, together);
  const fresh = Math.sqrt(1 - noise.following ** 2);
  const record = { rise: new Float64Array(truth.length), power: new Float64Array(power.length), duration };
  const found: { off: BodyState; steadyRise: number }[] = [];
  for (let trial = 0; trial < trials; trial++) {
    record.rise.set(truth);
    record.power.set(power);
    const draws = errors.map(() => normal());
    for (const [i, error] of errors.entries()) layOver(record, error, error.u * mixed(mixing[i] as number[], draws));
    let scatter = normal();
    for (let i = 0; i < truth.length; i++) {
      record.rise[i] = (record.rise[i] as number) + noise.rise * scatter;
      scatter = noise.following * scatter + fresh * normal();
    }
    for (let i = 0; i < power.length; i++) {
      const sd = noise.power[i] as number;
      if (sd > 0) record.power[i] = (record.power[i] as number) + sd * normal();
    }
    const again = refitLumpedHeating(record, fit);
    if (again) found.push({ off: again, steadyRise: again.thermalResistance * meanOf(record.power) - steady });
  }
  return {
    timeConstant: Float64Array.from(found, ({ off }) => off.timeConstant - fit.timeConstant),
    thermalResistance: Float64Array.from(found, ({ off }) => off.thermalResistance - fit.thermalResistance),
    steadyRise: Float64Array.from(found, ({ steadyRise }) => steadyRise),
    unsettled: trials - found.length,
  };
}

/** How the three numbers move with one error of the whole record: half the difference of refits at plus and minus u. */
export function lumpedHeatingChange(
  { power, duration }: Pick<PiecewiseRecord, 'power' | 'duration'>,
  fit: BodyState,
  error: RecordError,
): { timeConstant: number; thermalResistance: number; steadyRise: number } | undefined {
  const meanOf = meanPowerOver(duration);
  const at = (by: number) => {
    const record = { rise: courseOf({ power, duration }, fit), power: power.slice(), duration };
    layOver(record, error, by);
    const again = refitLumpedHeating(record, fit);
    return again && { ...again, steadyRise: again.thermalResistance * meanOf(record.power) };
  };
  const [above, below] = [at(error.u), at(-error.u)];
  if (!above || !below) return undefined;
  return {
    timeConstant: (above.timeConstant - below.timeConstant) / 2,
    thermalResistance: (above.thermalResistance - below.thermalResistance) / 2,
    steadyRise: (above.steadyRise - below.steadyRise) / 2,
  };
}

/**
 * Standard normal numbers two at a time, in half the time of inversion: a trial takes hundreds.
 *
 * Source: Box and Muller (1958), Ann. Math. Statist. 29, 610-611.
 */
function inPairs(generator: Generator): () => number {
  let other: number | undefined;
  return () => {
    if (other !== undefined) {
      const kept = other;
      other = undefined;
      return kept;
    }
    const radius = Math.sqrt(-2 * Math.log(generator.uniform()));
    const angle = 2 * Math.PI * generator.uniform();
    other = radius * Math.sin(angle);
    return radius * Math.cos(angle);
  };
}

/** Lower triangle L of the correlation matrix, L Lᵀ = C, by Cholesky: L z errs together as C says. */
function mixingOf(count: number, together: readonly ErrorPair[]): number[][] {
  const correlation = (a: number, b: number) =>
    a === b ? 1 : (together.find(({ between }) => between.includes(a) && between.includes(b))?.r ?? 0);
  const lower: number[][] = [];
  for (let i = 0; i < count; i++) {
    const row: number[] = [];
    for (let j = 0; j <= i; j++) {
      const known = (j === i ? row : (lower[j] as number[])).slice(0, j);
      const rest = correlation(i, j) - known.reduce((sum, one, k) => sum + one * (row[k] as number), 0);
      const pivot = j < i ? ((lower[j] as number[])[j] as number) : 0;
      if (j < i && pivot > 0) row.push(rest / pivot);
      else if (j < i ? Math.abs(rest) < 1e-9 : rest > -1e-9) row.push(j < i ? 0 : Math.sqrt(Math.max(0, rest)));
      else throw new RangeError('lumpedHeatingTrials: no errors can err together as these correlations say.');
    }
    lower.push(row);
  }
  return lower;
}

function mixed(row: readonly number[], draws: readonly number[]): number {
  return row.reduce((sum, one, k) => sum + one * (draws[k] as number), 0);
}

function layOver({ rise, power }: PiecewiseRecord, error: RecordError, by: number): void {
  if (error.rise !== undefined) for (let i = 0; i < rise.length; i++) rise[i] = (rise[i] as number) + error.rise * by;
  if (error.power)
    for (let i = 0; i < power.length; i++) power[i] = (power[i] as number) + (error.power[i] as number) * by;
}

/** Warming at the ends of the pieces by the model. */
function courseOf(
  { power, duration }: Pick<PiecewiseRecord, 'power' | 'duration'>,
  { timeConstant, thermalResistance, startRise }: BodyState,
): Float64Array {
  const course = new Float64Array(power.length + 1);
  let [warming, start] = [0, 1];
  course[0] = startRise;
  for (let i = 0; i < power.length; i++) {
    const phi = Math.exp(-(duration[i] as number) / timeConstant);
    warming = warming * phi + (power[i] as number) * (1 - phi);
    start *= phi;
    course[i + 1] = thermalResistance * warming + startRise * start;
  }
  return course;
}

function meanPowerOver(duration: Float64Array): (power: Float64Array) => number {
  const whole = duration.reduce((sum, one) => sum + one, 0);
  return (power) => power.reduce((sum, watts, i) => sum + watts * (duration[i] as number), 0) / whole;
}
