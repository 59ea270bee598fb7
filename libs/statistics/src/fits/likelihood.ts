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
  private readonly atLeast: Counted;
  private readonly atMost: Counted;
  private readonly lower: Float64Array;
  private readonly length: Float64Array;
  private readonly moments: { sum: number; squares: number };
  private readonly scratch = new Float64Array(6);

  constructor(
    readonly family: Family,
    readonly observations: Observations,
  ) {
    const { exact, atLeast, atMost, lower, upper } = observations;
    [this.centre, this.spread] = middleAndSpread([exact, atLeast, atMost, lower, upper]);
    this.exact = standardised(exact, this.centre, this.spread);
    this.atLeast = counted(standardised(atLeast, this.centre, this.spread));
    this.atMost = counted(standardised(atMost, this.centre, this.spread));
    this.moments = momentsOf(this.exact);
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
    if (family.quadratic) addQuadratic(sums, family.quadratic, count, this.moments, intercept, slope);
    else
      for (let index = 0; index < count; index++) {
        const y = this.exact[index] as number;
        family.density(intercept + slope * y, scratch);
        add(sums, scratch, y, 1);
      }
    for (let index = 0; index < this.atLeast.values.length; index++) {
      const y = this.atLeast.values[index] as number;
      family.survival(intercept + slope * y, scratch);
      add(sums, scratch, y, this.atLeast.counts[index] as number);
    }
    for (let index = 0; index < this.atMost.values.length; index++) {
      const y = this.atMost.values[index] as number;
      family.failure(intercept + slope * y, scratch);
      add(sums, scratch, y, this.atMost.counts[index] as number);
    }
    for (let index = 0; index < this.lower.length; index++) {
      const low = this.lower[index] as number;
      const length = this.length[index] as number;
      family.between(intercept + slope * low, slope * length, scratch);
      addInterval(sums, scratch, low, length);
    }
    return sums;
  }

  /** The value of `at` alone, several times as fast. */
  valueAt(intercept: number, slope: number): number {
    const { family, exact, atLeast, atMost, lower, length, scratch } = this;
    const count = exact.length;
    let value = count > 0 ? count * Math.log(slope / this.spread) : 0;
    if (family.quadratic) {
      const { sum, squares } = this.moments;
      const square = intercept * (intercept * count + 2 * slope * sum) + slope * slope * squares;
      value += count * family.quadratic.constant - 0.5 * square;
    } else
      for (let index = 0; index < count; index++)
        value += family.logDensity(intercept + slope * (exact[index] as number));
    for (let index = 0; index < atLeast.values.length; index++)
      value +=
        (atLeast.counts[index] as number) * family.logSurvival(intercept + slope * (atLeast.values[index] as number));
    for (let index = 0; index < atMost.values.length; index++)
      value +=
        (atMost.counts[index] as number) * family.logFailure(intercept + slope * (atMost.values[index] as number));
    for (let index = 0; index < lower.length; index++) {
      family.between(intercept + slope * (lower[index] as number), slope * (length[index] as number), scratch);
      value += scratch[0] as number;
    }
    return value;
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
function add(sums: LikelihoodAt, derivatives: Float64Array, y: number, count: number): void {
  const first = count * (derivatives[1] as number);
  const second = count * (derivatives[2] as number);
  sums.value += count * (derivatives[0] as number);
  sums.byIntercept += first;
  sums.bySlope += first * y;
  sums.byInterceptTwice += second;
  sums.byBoth += second * y;
  sums.bySlopeTwice += second * y * y;
}

/** All exact values at once, where ln f is a constant less half the square of z: two sums are all that is needed of them. */
function addQuadratic(
  sums: LikelihoodAt,
  { constant }: { constant: number },
  count: number,
  { sum, squares }: { sum: number; squares: number },
  intercept: number,
  slope: number,
): void {
  const byIntercept = intercept * count + slope * sum;
  const bySlope = intercept * sum + slope * squares;
  sums.value += count * constant - 0.5 * (intercept * byIntercept + slope * bySlope);
  sums.byIntercept -= byIntercept;
  sums.bySlope -= bySlope;
  sums.byInterceptTwice -= count;
  sums.byBoth -= sum;
  sums.bySlopeTwice -= squares;
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

/** Values without their repetitions, and how often each stands there. */
interface Counted {
  values: Float64Array;
  counts: Float64Array;
}

/** Survivors often share one value, where a rig stopped; each is then worked out once. */
function counted(values: Float64Array): Counted {
  const sorted = ascending(values) ? values : values.toSorted();
  const counts = new Float64Array(sorted.length);
  let last = -1;
  for (let index = 0; index < sorted.length; index++) {
    // `values` is this object's own, so what repeats in it may be written over.
    if (last < 0 || sorted[index] !== sorted[last]) sorted[++last] = sorted[index] as number;
    counts[last] = (counts[last] as number) + 1;
  }
  return { values: sorted.subarray(0, last + 1), counts: counts.subarray(0, last + 1) };
}

function ascending(values: Float64Array): boolean {
  for (let index = 1; index < values.length; index++)
    if ((values[index] as number) < (values[index - 1] as number)) return false;
  return true;
}

function momentsOf(values: Float64Array): { sum: number; squares: number } {
  let [sum, squares] = [0, 0];
  for (let index = 0; index < values.length; index++) {
    const value = values[index] as number;
    sum += value;
    squares += value * value;
  }
  return { sum, squares };
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
