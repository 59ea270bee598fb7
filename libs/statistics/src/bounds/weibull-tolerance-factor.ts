import { type NotEvaluated, notEvaluated } from '@breakbook/lab';
import { normalDensity, normalQuantile } from '../distributions/normal.js';
import { Likelihood } from '../fits/likelihood.js';
import { maximumOf } from '../fits/maximum.js';
import { smallestExtremeValue } from '../fits/smallest-extreme-value.js';
import { rootOfIncreasing } from '../numerics/find-root.js';
import { seededGenerator } from '../random/generator.js';
import { sortedUniforms } from '../random/order-statistics.js';
import { requireCount, requireFraction } from '../requirements.js';
import { type PivotShare, pivotGiven } from './weibull-conditional.js';

/** Replicates taken if none are asked for: a standard error of 0.06 % of the factor or less, in about a second. */
export const USUAL_REPLICATES = 10_000;

export interface WeibullToleranceFactor {
  method: 'Weibull tolerance factor';
  n: number;
  failures: number;
  coverage: number;
  confidence: number;
  /** bound = q exp(-v / (shape sqrt n)), with q and shape as fitted. */
  v: number;
  /** Standard error of `v`. */
  simulationError: number;
  seed: number;
  replicates: number;
}

export interface WeibullFactorQuestion {
  n: number;
  /** Specimens broken when the test ended; all, if left out. */
  failures?: number | undefined;
  coverage: number;
  confidence: number;
  seed?: number | undefined;
  replicates?: number | undefined;
}

/**
 * How far below the fitted quantile must a Weibull lower bound lie, so that with this confidence at least this share of
 * the population lies above it?
 *
 *     bound = q exp(-V / (b sqrt n)),     V = sqrt n (w + z),     w = ln(-ln coverage)
 *
 * with q and b the quantile and the shape of maximum likelihood, n the specimens on test, and z the point below which the
 * pivotal quantity b ln(scale / q true) lies with the confidence, over all samples: complete, or of a test ended at a
 * break. Simulated, but not counted: each replicate gives the whole distribution of the pivotal quantity for samples that
 * lie relative to each other as it does (see `conditionalPivot`), and their average is taken. That needs a thousandth of
 * the replicates.
 *
 * A bound with this factor is exact over all samples, one by the conditional technique for each kind of sample as well;
 * acceptance takes the latter. Smallest: 2 failures.
 *
 * Source: Thoman, Bain and Antle (1969), Technometrics 11, 445-460, and (1970), Technometrics 12, 363-371; Lawless (1978),
 * Technometrics 20, 355-368; form of MIL-HDBK-17-1F, volume 1, section 8.3.4.2.
 */
export function weibullToleranceFactor(question: WeibullFactorQuestion): WeibullToleranceFactor | NotEvaluated {
  const { n, failures = n, coverage, confidence, seed = 1, replicates = USUAL_REPLICATES } = question;
  requireCount('weibullToleranceFactor', { n, failures });
  requireCount('weibullToleranceFactor', { replicates }, 100);
  requireFraction('weibullToleranceFactor', { coverage, confidence });
  if (failures > n)
    throw new RangeError(`weibullToleranceFactor: ${failures} failures among ${n} specimens cannot be.`);
  if (failures < 2)
    return notEvaluated(
      `${failures === 0 ? 'no failure says' : 'one failure says'} nothing about scatter`,
      'at least 2 specimens break',
    );

  const w = Math.log(-Math.log(coverage));
  const design = { n, failures, coverage, seed };
  // Ever more replicates, each time from where the fewer before put it; a step of Newton's method is then enough.
  let z = pilot(design, confidence);
  let error = 0;
  for (const count of [Math.ceil(replicates / 10), replicates]) {
    const { share, density, shareError } = averageAt(z, design, count);
    const score = scoreOf(share);
    const slope = density / normalDensity(score);
    z += (normalQuantile(confidence) - score) / slope;
    error = shareError / density;
  }
  return {
    method: 'Weibull tolerance factor',
    n,
    failures,
    coverage,
    confidence,
    v: Math.sqrt(n) * (w + z),
    simulationError: Math.sqrt(n) * error,
    seed,
    replicates,
  };
}

interface Design {
  n: number;
  failures: number;
  coverage: number;
  seed: number;
}

/** The point where the average over a hundred replicates has the confidence. */
function pilot(design: Design, confidence: number): number {
  const score = normalQuantile(confidence);
  const given = Array.from({ length: 100 }, simulated(design));
  return rootOfIncreasing(
    (z) => {
      const shares = given.map((one) => one(z));
      const average = (part: keyof PivotShare) => shares.reduce((sum, share) => sum + share[part], 0) / shares.length;
      const scoreHere = scoreOf({ below: average('below'), above: average('above') });
      return { value: scoreHere - score, slope: average('slope') / normalDensity(scoreHere) };
    },
    0,
    1,
  );
}

/** Average, slope and standard error of the distribution functions of `count` replicates at z. */
function averageAt(z: number, design: Design, count: number) {
  const next = simulated(design);
  let [below, above, density, squares] = [0, 0, 0, 0];
  for (let replicate = 0; replicate < count; replicate++) {
    const share = next()(z);
    below += share.below;
    above += share.above;
    density += share.slope;
    squares += share.above * share.above;
  }
  const variance = (squares - (above * above) / count) / (count - 1);
  return {
    share: { below: below / count, above: above / count },
    density: density / count,
    shareError: Math.sqrt(variance / count),
  };
}

/** One replicate after the other: the distribution of the pivotal quantity given that sample. */
function simulated({ n, failures, coverage, seed }: Design): () => (z: number) => PivotShare {
  const chance = seededGenerator(seed);
  const none = new Float64Array(0);
  return () => {
    const values = sortedUniforms(n, chance).map(smallestExtremeValue.quantile).subarray(0, failures);
    const atLeast = new Float64Array(n - failures).fill(values[failures - 1] as number);
    const observations = { exact: values, atLeast, atMost: none, lower: none, upper: none, n, failures };
    const likelihood = new Likelihood(smallestExtremeValue, observations);
    const { intercept, slope } = maximumOf(likelihood);
    const standardised = (y: number) => intercept + slope * ((y - likelihood.centre) / likelihood.spread);
    const sample = { broke: Array.from(values, standardised), held: Array.from(atLeast, standardised) };
    return pivotGiven(sample, coverage, 3);
  };
}

function scoreOf({ below, above }: { below: number; above: number }): number {
  return below < above ? normalQuantile(below) : -normalQuantile(above);
}
