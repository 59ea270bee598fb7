import { noncentralTCdf, noncentralTQuantile } from '../distributions/noncentral-t.js';
import { normalQuantile } from '../distributions/normal.js';
import { requireCount, requireFinite, requireFraction } from '../requirements.js';
import { twoSidedToleranceConfidence, twoSidedToleranceFactor } from './two-sided-tolerance.js';

export interface NormalToleranceFactor {
  method: 'normal tolerance factor';
  n: number;
  coverage: number;
  confidence: number;
  /** 1: at least `coverage` lies above mean - k s (or below mean + k s). 2: between mean - k s and mean + k s. */
  sides: 1 | 2;
  k: number;
}

export interface FactorQuestion {
  /** Values in the sample, at least 2. */
  n: number;
  coverage: number;
  confidence: number;
  sides?: 1 | 2;
}

/**
 * How many sample standard deviations below the mean must a bound lie, so that with this confidence
 * at least this share of a normal population lies above it?
 *
 *     one side    k = t(confidence; n - 1, z_coverage sqrt n) / sqrt n     noncentral t quantile
 *     two sides   the k that holds the coverage between mean -+ k s (see `twoSidedToleranceFactor`)
 *
 * Exact. Assumes values independent, drawn at random, normal; both mean and scatter unknown.
 *
 * Source: Owen (1963), Sandia SCR-607; ISO 16269-6:2014; NIST/SEMATECH e-Handbook, section 7.2.6.3.
 */
export function normalToleranceFactor({ n, coverage, confidence, sides = 1 }: FactorQuestion): NormalToleranceFactor {
  requireCount('normalToleranceFactor', { n }, 2);
  requireFraction('normalToleranceFactor', { coverage, confidence });
  const k =
    sides === 2
      ? twoSidedToleranceFactor(n, coverage, confidence)
      : noncentralTQuantile(confidence, n - 1, normalQuantile(coverage) * Math.sqrt(n)) / Math.sqrt(n);
  return { method: 'normal tolerance factor', n, coverage, confidence, sides, k };
}

/** The inverse of `normalToleranceFactor`: with what confidence does a bound k standard deviations off hold the coverage? */
export function normalToleranceConfidence({
  n,
  coverage,
  k,
  sides = 1,
}: Omit<FactorQuestion, 'confidence'> & { k: number }): NormalToleranceFactor {
  requireCount('normalToleranceConfidence', { n }, 2);
  requireFraction('normalToleranceConfidence', { coverage });
  requireFinite('normalToleranceConfidence', { k });
  const confidence =
    sides === 2
      ? twoSidedToleranceConfidence(n, coverage, k)
      : noncentralTCdf(k * Math.sqrt(n), n - 1, normalQuantile(coverage) * Math.sqrt(n));
  return { method: 'normal tolerance factor', n, coverage, confidence, sides, k };
}
