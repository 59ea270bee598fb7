import type { Family } from './family.js';
import type { Observations } from './observations.js';

/** A log-likelihood at one point, with its derivatives by intercept and slope. */
export interface LikelihoodAt {
  value: number;
  byIntercept: number;
  bySlope: number;
  byInterceptTwice: number;
  byBoth: number;
  bySlopeTwice: number;
}

/**
 * The log-likelihood of a location-scale family for specimens known exactly, from one side or
 * within an interval, written in intercept a and slope b of the standardised value:
 *
 *     z = a + b y,     b = 1 / scale,     a = -location / scale
 *     ln L = sum over exact of (ln b + ln f(z)) + sum over at least of ln (1 - F(z))
 *          + sum over at most of ln F(z) + sum over intervals of ln (F(z upper) - F(z lower))
 *
 * In these two numbers ln L is concave when ln f is, so that it has one maximum at most and
 * Newton's method finds it: Burridge (1981), J. R. Statist. Soc. B 43, 41-45.
 *
 * The values y are centred and scaled here; `centre` and `spread` say how. ln L is that of the
 * values y as they came in.
 */
export class Likelihood {
  readonly centre: number;
  readonly spread: number;
  private readonly exact: Float64Array;
  private readonly atLeast: Float64Array;
  private readonly atMost: Float64Array;
  private readonly lower: Float64Array;
  private readonly length: Float64Array;
  private readonly scratch = new Float64Array(6);

  constructor(
    readonly family: Family,
    readonly observations: Observations,
  ) {
    const { exact, atLeast, atMost, lower, upper } = observations;
    [this.centre, this.spread] = middleAndSpread([exact, atLeast, atMost, lower, upper]);
    this.exact = standardised(exact, this.centre, this.spread);
    this.atLeast = standardised(atLeast, this.centre, this.spread);
    this.atMost = standardised(atMost, this.centre, this.spread);
    this.lower = standardised(lower, this.centre, this.spread);
    this.length = upper.map((y, index) => (y - (lower[index] as number)) / this.spread);
  }

  at(intercept: number, slope: number): LikelihoodAt {
    const { family, scratch } = this;
    const count = this.exact.length;
    const sums: LikelihoodAt = {
      value: 0,
      byIntercept: 0,
      bySlope: 0,
      byInterceptTwice: 0,
      byBoth: 0,
      bySlopeTwice: 0,
    };
    if (count > 0) {
      sums.value = count * Math.log(slope / this.spread);
      sums.bySlope = count / slope;
      sums.bySlopeTwice = -count / (slope * slope);
    }
    for (let index = 0; index < count; index++) {
      const y = this.exact[index] as number;
      family.density(intercept + slope * y, scratch);
      add(sums, scratch, y);
    }
    for (let index = 0; index < this.atLeast.length; index++) {
      const y = this.atLeast[index] as number;
      family.survival(intercept + slope * y, scratch);
      add(sums, scratch, y);
    }
    for (let index = 0; index < this.atMost.length; index++) {
      const y = this.atMost[index] as number;
      family.failure(intercept + slope * y, scratch);
      add(sums, scratch, y);
    }
    for (let index = 0; index < this.lower.length; index++) {
      const low = this.lower[index] as number;
      const length = this.length[index] as number;
      family.between(intercept + slope * low, slope * length, scratch);
      addInterval(sums, scratch, low, length);
    }
    return sums;
  }

  /** Location and scale of the values as they came in, from intercept and slope. */
  locationAndScale(intercept: number, slope: number): { location: number; scale: number } {
    return { location: this.centre - (this.spread * intercept) / slope, scale: this.spread / slope };
  }

  /** Intercept and slope from a location and scale of the values as they came in. */
  interceptAndSlope(location: number, scale: number): { intercept: number; slope: number } {
    return { intercept: (this.centre - location) / scale, slope: this.spread / scale };
  }
}

// Indexed, not destructured: taking an array apart by its iterator triples the time of a fit.
function add(sums: LikelihoodAt, derivatives: Float64Array, y: number): void {
  const first = derivatives[1] as number;
  const second = derivatives[2] as number;
  sums.value += derivatives[0] as number;
  sums.byIntercept += first;
  sums.bySlope += first * y;
  sums.byInterceptTwice += second;
  sums.byBoth += second * y;
  sums.bySlopeTwice += second * y * y;
}

function addInterval(sums: LikelihoodAt, derivatives: Float64Array, low: number, length: number): void {
  const byLow = derivatives[1] as number;
  const byLength = derivatives[2] as number;
  const lowTwice = derivatives[3] as number;
  const both = derivatives[4] as number;
  const lengthTwice = derivatives[5] as number;
  sums.value += derivatives[0] as number;
  sums.byIntercept += byLow;
  sums.bySlope += byLow * low + byLength * length;
  sums.byInterceptTwice += lowTwice;
  sums.byBoth += lowTwice * low + both * length;
  sums.bySlopeTwice += lowTwice * low * low + 2 * both * low * length + lengthTwice * length * length;
}

function standardised(values: Float64Array, centre: number, spread: number): Float64Array {
  const found = new Float64Array(values.length);
  for (let index = 0; index < values.length; index++) found[index] = ((values[index] as number) - centre) / spread;
  return found;
}

/** Mean and root mean square deviation of every number the observations name; a spread of 1 if they are all one. */
function middleAndSpread(arrays: Float64Array[]): [number, number] {
  let count = 0;
  let sum = 0;
  for (const values of arrays) {
    count += values.length;
    for (const value of values) sum += value;
  }
  if (count === 0) return [0, 1];
  const middle = sum / count;
  let squares = 0;
  for (const values of arrays) for (const value of values) squares += (value - middle) ** 2;
  return [middle, Math.sqrt(squares / count) || 1];
}
