import type { Fitted } from '../fits/location-scale-fit.js';
import { covarianceAt } from '../fits/quantity.js';
import { gaussLegendre, type Quadrature } from '../numerics/gauss-legendre.js';

/** Where a quantile of the population lies relative to one value: the pivotal distribution at that value. */
export interface PivotShare {
  /** Probability that the quantile is smaller. */
  below: number;
  /** Probability that it is larger. */
  above: number;
  /** Height of its density. */
  slope: number;
}

/** How finely the integrals are taken: for a bound itself, or for one of thousands of simulated samples. */
export const FINE = { stride: 2, rule: gaussLegendre(24), drop: 40 };
export const COARSE = { stride: 6, rule: gaussLegendre(6), drop: 14 };
type Fineness = typeof FINE;

/**
 * The distribution of the quantile y at which the standardised value is `z`, given a sample: what the pivotal quantities of
 * a location-scale population say of it. With intercept a and slope b of the standardised value a + b y,
 *
 *     P(quantile <= y) = integral over {a + b y >= z} of L(a, b) b^-2 da db / integral over all
 *
 * L being the likelihood. For complete samples, and for tests ended at the r-th break, this is the exact conditional
 * distribution of the pivotal quantities given how the specimens lie relative to each other, so that the value where it is
 * 1 - confidence is an exact lower bound: that of Lawless, for any such family. For other censoring it is the generalised
 * pivotal (fiducial) distribution, near to exact; how near is found by simulation.
 *
 * Proper where at least two strengths are known exactly or within an interval. y is on the standardised scale of the
 * likelihood. The outer integral is over b, in a variable where equal steps serve (see `posteriorNodes` of the Weibull
 * form); the inner one, over the standardised value at the place where it is least tied to b, by Gauss-Legendre rules on
 * both sides of the cut.
 *
 * Source: Lawless (2003), Statistical Models and Methods for Lifetime Data, 2nd ed., appendix E; Weerahandi (1993), J. Amer.
 * Statist. Assoc. 88, 899-905; Hannig (2009), Statistica Sinica 19, 491-544.
 */
export function pivotalQuantile(fitted: Fitted, z: number, fineness: Fineness = FINE): (y: number) => PivotShare {
  const { maximum } = fitted;
  const covariance = covarianceAt(maximum);
  const anchor = -covariance.both / covariance.slope;
  const slices = slicesOf(fitted, anchor, z, fineness);
  return (y) => {
    let [below, above, slope] = [0, 0, 0];
    for (const slice of slices) {
      const cut = z - slice.b * (y - anchor);
      const at = Math.min(slice.high, Math.max(slice.low, cut));
      // The quantile is smaller than y where the standardised value at y is larger than z.
      below += slice.weight * integral(slice, at, slice.high, fineness.rule);
      above += slice.weight * integral(slice, slice.low, at, fineness.rule);
      if (at === cut) slope += slice.weight * slice.b * Math.exp(slice.logHeight(cut) - slice.top);
    }
    const all = below + above;
    return { below: below / all, above: above / all, slope: slope / all };
  };
}

/** The likelihood along one b, as a function of the standardised value at the anchor. */
interface Slice {
  b: number;
  /** Of the outer integral, the height at the top of the slice included. */
  weight: number;
  logHeight: (value: number) => number;
  /** Its largest value, where that is, and between where it is worth anything. */
  top: number;
  mode: number;
  low: number;
  high: number;
}

function slicesOf({ likelihood, maximum }: Fitted, anchor: number, z: number, { stride, drop }: Fineness): Slice[] {
  const { exact, lower } = likelihood.observations;
  const known = exact.length + lower.length;
  const step = (0.55 * stride) / (Math.sqrt(known + 20) * Math.hypot(1.3, Math.abs(z) + 4));
  const slices: Slice[] = [];
  let highest = 0;
  for (const direction of [-1, 1]) {
    let mode = maximum.intercept + maximum.slope * anchor;
    for (let index = direction === 1 ? 0 : 1; ; index++) {
      // The slope is that of the maximum at u = 0.567; see `posteriorNodes`.
      const u = 0.567 + direction * index * step;
      const t = Math.exp(u - Math.exp(-u));
      const b = maximum.slope * t;
      const along = (value: number) => likelihood.at(value - b * anchor, b);
      const peak = topOf(along, mode);
      mode = peak.mode;
      const height = Math.exp(peak.top - maximum.at.value) * peak.width;
      const measure = (1 + Math.exp(-u)) / t;
      if (!(height * measure > highest * Math.exp(-drop))) break;
      highest = Math.max(highest, height * measure);
      const logHeight = (value: number) => likelihood.valueAt(value - b * anchor, b);
      slices.push({
        b,
        weight: Math.exp(peak.top - maximum.at.value) * measure,
        logHeight,
        ...peak,
        low: endOf(along, peak, drop, -1),
        high: endOf(along, peak, drop, 1),
      });
    }
  }
  return slices;
}

interface Peak {
  mode: number;
  top: number;
  /** One over the root of the curvature at the top. */
  width: number;
}

type Along = (value: number) => { value: number; byIntercept: number; byInterceptTwice: number };

/** The top of a concave function of one number, by Newton's method with steps of at most two widths. */
function topOf(along: Along, start: number): Peak {
  let mode = start;
  for (let round = 0; ; round++) {
    const { value, byIntercept, byInterceptTwice } = along(mode);
    const width = 1 / Math.sqrt(-byInterceptTwice);
    const move = byIntercept * width * width;
    if (Math.abs(move) < 1e-3 * width || round === 50) return { mode, top: value, width };
    mode += Math.max(-2 * width, Math.min(2 * width, move));
  }
}

/** Where the function has fallen by about `drop` below its top: beyond, nothing of it is left. */
function endOf(along: Along, { mode, top, width }: Peak, drop: number, direction: -1 | 1): number {
  let at = mode + direction * width * Math.sqrt(2 * drop);
  for (let round = 0; round < 30; round++) {
    const { value, byIntercept } = along(at);
    const short = value - (top - drop);
    // Concave: a step of Newton's method from outside never comes back too far, and one from inside reaches outside.
    if (Math.abs(short) < 0.15 * drop) return at;
    at = (at - short / byIntercept - mode) * direction > 0 ? at - short / byIntercept : mode + (at - mode) / 2;
  }
  return at;
}

/** The integral of the height of a slice, its top taken as 1, on both sides of its mode if that lies between. */
function integral(slice: Slice, from: number, to: number, rule: Quadrature): number {
  if (!(to > from)) return 0;
  if (slice.mode > from && slice.mode < to)
    return piece(slice, from, slice.mode, rule) + piece(slice, slice.mode, to, rule);
  return piece(slice, from, to, rule);
}

function piece({ logHeight, top }: Slice, from: number, to: number, { points, weights }: Quadrature): number {
  let sum = 0;
  for (let index = 0; index < points.length; index++)
    sum += (weights[index] as number) * Math.exp(logHeight(from + (to - from) * (points[index] as number)) - top);
  return sum * (to - from);
}
