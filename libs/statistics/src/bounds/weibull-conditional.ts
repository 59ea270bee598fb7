import { gammaShare } from '../distributions/gamma.js';
import { normalDensity, normalQuantile } from '../distributions/normal.js';
import { rootOfIncreasing } from '../numerics/find-root.js';

/** What the conditional bound needs of a fitted sample. */
export interface AncillarySample {
  /** (ln x - ln scale) * shape of each specimen that broke, with the fitted shape and scale. */
  broke: readonly number[];
  /** The same of those that held when the test ended at the last failure. */
  held: readonly number[];
}

/**
 * The pivotal quantity Z = shape^ ln(scale^ / q), q the quantile of a Weibull population that a share
 * `coverage` exceeds and ^ the fitted values: its point below which it lies with this confidence,
 * given how the specimens lie relative to each other. The lower bound on q is scale^ exp(-Z / shape^).
 *
 *     P(Z <= z | a) = integral over t of h(t) I(r, exp(w + t z) S(t)) dt
 *     h(t) ~ t^(r - 2) exp(t sum of a_i over failures) / S(t)^r,     S(t) = sum of exp(a_i t) over all
 *     w = ln(-ln coverage),   a_i = shape^ ln(x_i / scale^),   I the regularised incomplete gamma function
 *
 * with r failures, at least 2. Exact for complete samples and for tests ended at the r-th failure,
 * because the a_i there have a distribution free of both parameters.
 *
 * Source: Lawless (1975), Technometrics 17, 255-261; Lawless (1978), Technometrics 20, 355-368.
 */
export function conditionalPivot(sample: AncillarySample, coverage: number, confidence: number): number {
  const w = Math.log(-Math.log(coverage));
  const r = sample.broke.length;
  const given = pivotGiven(sample, coverage);
  const score = normalQuantile(confidence);
  return rootOfIncreasing(
    (z) => {
      const { below, above, slope } = given(z);
      const scoreHere = below < above ? normalQuantile(below) : -normalQuantile(above);
      return { value: scoreHere - score, slope: slope / normalDensity(scoreHere) };
    },
    -w + (score * (1.1 + 0.6 * Math.abs(w))) / Math.sqrt(r),
    (1 + Math.abs(w)) / Math.sqrt(r),
  );
}

/** The distribution of the pivotal quantity at one point. */
export interface PivotShare {
  below: number;
  above: number;
  /** Height of its density. */
  slope: number;
}

/**
 * The distribution function of the pivotal quantity of `conditionalPivot`, given the sample. Steps `stride` times as wide
 * as that needs serve a simulation, where more digits would be lost in chance: at 3 some 1e-5 is off at worst.
 */
export function pivotGiven(sample: AncillarySample, coverage: number, stride = 1): (z: number) => PivotShare {
  const w = Math.log(-Math.log(coverage));
  const nodes = posteriorNodes(sample, w, stride);
  return (z) => probabilityAt(z, w, sample.broke.length, nodes);
}

interface Node {
  /** Ratio of fitted to true scale of ln x, and what h gives it, the step included. */
  t: number;
  weight: number;
  /** S(t). */
  sum: number;
}

/**
 * The trapezoidal rule for h, with t = exp(u - exp(-u)): in u the integrand falls off faster than
 * any exponential on both sides, few failures or many, so that the error of equal steps vanishes
 * faster than any power of the step (Takahasi and Mori 1974, Publ. RIMS 9, 721-741).
 */
export function posteriorNodes({ broke, held }: AncillarySample, w: number, stride: number): Node[] {
  const r = broke.length;
  const total = broke.reduce((sum, a) => sum + a, 0);
  const all = [...broke, ...held];
  const nodeAt = (u: number): Node => {
    const t = Math.exp(u - Math.exp(-u));
    let sum = 0;
    for (const a of all) sum += Math.exp(a * t);
    // One t of the power is the measure dt = t (1 + exp(-u)) du.
    const logHeight = (r - 1) * Math.log(t) + t * total - r * Math.log(sum / r);
    return { t, weight: Math.exp(logHeight) * (1 + Math.exp(-u)), sum };
  };
  // Narrow against the rise of the incomplete gamma function, which steepens with w and with more failures.
  const step = (0.55 * stride) / (Math.sqrt(r + 20) * Math.hypot(1.3, Math.abs(w) + 4));
  // The fitted values put t = 1 near the middle of h.
  const middle = 0.567;
  const nodes: Node[] = [];
  for (const direction of [-1, 1]) {
    let highest = 0;
    for (let index = direction === 1 ? 0 : 1; ; index++) {
      const node = nodeAt(middle + direction * index * step);
      highest = Math.max(highest, node.weight);
      if (!(node.weight > highest * 1e-17)) break;
      nodes.push(node);
    }
  }
  const mass = nodes.reduce((sum, { weight }) => sum + weight, 0);
  for (const node of nodes) node.weight /= mass;
  return nodes;
}

function probabilityAt(z: number, w: number, r: number, nodes: Node[]): PivotShare {
  let [below, above, slope] = [0, 0, 0];
  for (const { t, weight, sum } of nodes) {
    const x = Math.exp(w + t * z) * sum;
    const share = gammaShare(r, x);
    below += weight * share.below;
    above += weight * share.above;
    slope += weight * share.density * x * t;
  }
  return { below, above, slope };
}
