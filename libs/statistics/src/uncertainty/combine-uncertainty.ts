import { type NotEvaluated, notEvaluated } from '@breakbook/lab';
import tQuantile from '@stdlib/stats-base-dists-t-quantile';
import { normalQuantile } from '../distributions/normal.js';
import { requireFinite, requireFraction, requirePositive } from '../requirements.js';

/** One source of uncertainty: u in its own unit, and what the result moves by per unit of it. */
export interface UncertaintySource {
  name: string;
  u: number;
  /** Partial derivative of the result with respect to this source; 1 when left out. */
  sensitivity?: number;
  /** Left out where u is taken as known without doubt (JCGM 100:2008, G.4.3). */
  degreesOfFreedom?: number;
}

/** Two sources that err together; sources that are not named are taken as independent. */
export interface SourceCorrelation {
  between: readonly [string, string];
  r: number;
}

export interface CombinedUncertainty {
  method: 'law of propagation of uncertainty';
  /** Combined standard uncertainty in the unit of the result. */
  standard: number;
  /** |sensitivity| u of each source, in the unit of the result. */
  contributions: { name: string; u: number }[];
  effectiveDegreesOfFreedom: number | 'unlimited' | NotEvaluated;
}

/**
 * How uncertain is a result whose sources x_i, with sensitivities c_i, are uncertain by u_i?
 *
 *     u² = sum c_i² u_i² + 2 sum over i < j of c_i c_j u_i u_j r_ij
 *     effective degrees of freedom = u⁴ / sum (c_i u_i)⁴ / f_i        (Welch-Satterthwaite)
 *
 * Assumes that the result is close to linear over the width of each source. The effective degrees of freedom
 * hold for independent sources only.
 *
 * Source: JCGM 100:2008 (GUM), 5.1.2, 5.2.2 and G.4.1.
 */
export function combineUncertainty(
  sources: readonly UncertaintySource[],
  correlations: readonly SourceCorrelation[] = [],
): CombinedUncertainty {
  if (sources.length === 0) throw new RangeError('combineUncertainty: needs at least one source; got none.');
  const signed = new Map<string, number>();
  for (const { name, u, sensitivity = 1, degreesOfFreedom } of sources) {
    if (signed.has(name)) throw new RangeError(`combineUncertainty: two sources are named "${name}"; name each once.`);
    requirePositive('combineUncertainty', { [`u of "${name}"`]: u });
    requireFinite('combineUncertainty', { [`sensitivity of "${name}"`]: sensitivity });
    if (degreesOfFreedom !== undefined)
      requirePositive('combineUncertainty', { [`degreesOfFreedom of "${name}"`]: degreesOfFreedom });
    signed.set(name, sensitivity * u);
  }

  let variance = 0;
  for (const one of signed.values()) variance += one * one;
  // What is left where parts cancel is the rounding of what cancelled.
  const rounding = 1e-12 * variance;
  for (const { between, r } of correlations) {
    const [a, b] = between.map((name) => signed.get(name));
    if (a === undefined || b === undefined || between[0] === between[1])
      throw new RangeError(
        `combineUncertainty: a correlation joins two of the sources; got "${between.join('", "')}".`,
      );
    if (!(r >= -1 && r <= 1)) throw new RangeError(`combineUncertainty: r must lie between -1 and 1; got ${r}.`);
    variance += 2 * a * b * r;
  }
  if (variance < -rounding)
    throw new RangeError('combineUncertainty: these correlations cannot all hold; the variance comes out negative.');

  const standard = Math.sqrt(Math.max(0, variance));
  return {
    method: 'law of propagation of uncertainty',
    standard,
    contributions: [...signed].map(([name, one]) => ({ name, u: Math.abs(one) })),
    effectiveDegreesOfFreedom: effectiveDegrees(standard, sources, correlations.length > 0),
  };
}

function effectiveDegrees(standard: number, sources: readonly UncertaintySource[], correlated: boolean) {
  const limited = sources.filter((one) => one.degreesOfFreedom !== undefined);
  if (limited.length === 0) return 'unlimited';
  if (correlated)
    return notEvaluated(
      'the Welch-Satterthwaite formula holds for independent sources, and some of these err together',
      'the correlated sources are joined into one with its own degrees of freedom',
    );
  // As shares of the whole, whose fourth powers neither overflow nor vanish where those of the sources would.
  let sum = 0;
  for (const { u, sensitivity = 1, degreesOfFreedom = 1 } of limited)
    sum += ((sensitivity * u) / (standard || 1)) ** 4 / degreesOfFreedom;
  // A source the result does not depend on leaves nothing to divide by.
  return sum === 0 ? 'unlimited' : 1 / sum;
}

/**
 * The factor k with which k·u covers the value with this confidence: the two-sided quantile of Student's t at the
 * effective degrees of freedom, cut down to a whole number as G.4.1 advises.
 *
 * Source: JCGM 100:2008 (GUM), G.3.2, G.4.1 and G.6.4.
 */
export function coverageFactor(effectiveDegreesOfFreedom: number | 'unlimited', confidence: number): number {
  requireFraction('coverageFactor', { confidence });
  const p = (1 + confidence) / 2;
  if (effectiveDegreesOfFreedom === 'unlimited') return normalQuantile(p);
  if (!(effectiveDegreesOfFreedom >= 1))
    throw new RangeError(`coverageFactor: needs at least 1 degree of freedom; got ${effectiveDegreesOfFreedom}.`);
  return tQuantile(p, Math.floor(effectiveDegreesOfFreedom));
}
