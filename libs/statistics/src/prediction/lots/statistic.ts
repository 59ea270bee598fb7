/** A reference of several lots, and what future units are held against it. One size alone: all units are taken for one population. */
export interface LotsLayout {
  /** How many values each lot gives. */
  sizes: readonly number[];
  /** How many items are compared. */
  items: number;
  /** `each`: every item by itself, from a lot of its own. `mean`: the mean of the items, all of one lot. */
  of: 'each' | 'mean';
}

/** How the two sources of scatter add up to the variance of a future value about the reference's mean. */
export interface ScatterWeights {
  between: number;
  within: number;
  betweenDegrees: number;
  withinDegrees: number;
}

/** A reference in three numbers: mean of the lot means, variance of the lot means, mean square within lots. */
export interface LotsSummary {
  centre: number;
  between: number;
  within: number;
}

/**
 * With k lots of n_i values, and 1 / n~ the mean of 1 / n_i, the variance of a future value less the mean of the lot means
 * is estimated without bias by
 *
 *     each   (1 + 1/k) S^2 + (1 - 1/n~) MSE
 *     mean   (1 + 1/k) S^2 + max(0, 1/m - 1/n~) MSE        of m items of one lot
 *
 * S^2 the variance of the lot means, MSE the mean square within lots; where all n units are one population, (1 + 1/n) s^2
 * and (1/m + 1/n) s^2.
 *
 * Source: expected mean squares of the one-way random model, Searle, Casella and McCulloch (1992), Variance Components,
 * chapter 3; one population: Hahn and Meeker (1991), Statistical Intervals, section 4.7.
 */
export function scatterWeights({ sizes, items, of }: LotsLayout): ScatterWeights {
  const k = sizes.length;
  const n = sizes.reduce((sum, size) => sum + size, 0);
  const own = of === 'mean' ? 1 / items : 1;
  if (k === 1) return { between: 0, within: own + 1 / n, betweenDegrees: 1, withinDegrees: n - 1 };
  const inverse = sizes.reduce((sum, size) => sum + 1 / size, 0) / k;
  return {
    between: 1 + 1 / k,
    within: Math.max(0, own - inverse),
    betweenDegrees: k - 1,
    withinDegrees: Math.max(1, n - k),
  };
}

/** The three numbers of a reference, its values lot after lot. */
export function lotsSummary(values: Float64Array, sizes: readonly number[]): LotsSummary {
  const means = new Float64Array(sizes.length);
  let [start, squares] = [0, 0];
  for (let lot = 0; lot < sizes.length; lot++) {
    const size = sizes[lot] as number;
    let sum = 0;
    for (let at = start; at < start + size; at++) sum += values[at] as number;
    const mean = sum / size;
    for (let at = start; at < start + size; at++) squares += ((values[at] as number) - mean) ** 2;
    means[lot] = mean;
    start += size;
  }
  return {
    ...aboutTheirMean(means),
    within: values.length > sizes.length ? squares / (values.length - sizes.length) : 0,
  };
}

export function aboutTheirMean(means: Float64Array): { centre: number; between: number } {
  let centre = 0;
  for (const mean of means) centre += mean / means.length;
  if (means.length === 1) return { centre, between: 0 };
  let squares = 0;
  for (const mean of means) squares += (mean - centre) ** 2;
  return { centre, between: squares / (means.length - 1) };
}

/** Variance of a future value about the centre, and the degrees of freedom it is known with. */
export interface FutureSpread {
  variance: number;
  degrees: number;
}

/**
 * With `rigs` the variance of a difference between rigs, known beforehand. Degrees of freedom by
 *
 *     V^2 / ((w_b S^2)^2 / (k - 1) + (w_w MSE)^2 / (n - k))
 *
 * Source: Satterthwaite (1946), Biometrics Bulletin 2, 110-114.
 */
export function futureSpread(weights: ScatterWeights, { between, within }: LotsSummary, rigs: number): FutureSpread {
  const byLots = weights.between * between;
  const byUnits = weights.within * within;
  const variance = byLots + byUnits + rigs;
  const all = variance * variance;
  const degrees = all / (byLots ** 2 / weights.betweenDegrees + byUnits ** 2 / weights.withinDegrees);
  return { variance, degrees: Math.min(1e6, degrees) };
}

/**
 * How far off a value lies, as a normal score: the score whose tail is about that of Student's t with these degrees of
 * freedom, positive on the side that is looked at.
 *
 *     z = (8 d + 1) / (8 d + 3) sqrt(d ln(1 + t^2 / d))
 *
 * It only orders values; its chances are found by simulation.
 *
 * Source: Wallace (1959), Ann. Math. Statist. 30, 1121-1130.
 */
export function scoreOf(off: number, { variance, degrees }: FutureSpread): number {
  if (variance <= 0) return off === 0 ? 0 : Math.sign(off) * Number.POSITIVE_INFINITY;
  const scaled = (off * off) / (variance * degrees);
  return (Math.sign(off) * (8 * degrees + 1) * Math.sqrt(degrees * Math.log1p(scaled))) / (8 * degrees + 3);
}

/** How far off a value lies that has this score. */
export function offAtScore(score: number, { variance, degrees }: FutureSpread): number {
  if (variance <= 0) return 0;
  const root = (Math.abs(score) * (8 * degrees + 3)) / (8 * degrees + 1);
  return Math.sign(score) * Math.sqrt(variance * degrees * Math.expm1((root * root) / degrees));
}
