import { gammaShare } from '../distributions/gamma.js';
import { normalCdf, normalDensity, normalQuantile } from '../distributions/normal.js';
import { rootOfIncreasing } from '../numerics/find-root.js';

/**
 * The factor k with which mean -+ k s holds at least the coverage of a normal population, with the
 * confidence. Exact:
 *
 *     confidence = integral over z of phi(z) P(chi-square(n - 1) >= (n - 1) r(z)^2 / k^2) dz
 *     Phi(z / sqrt n + r) - Phi(z / sqrt n - r) = coverage
 *
 * z is the error of the mean in its own standard errors, r(z) half the width that then is needed.
 * Searched from the approximation of Howe (1969), J. Amer. Statist. Assoc. 64, 610-620.
 *
 * Source: Krishnamoorthy and Mathew (2009), Statistical Tolerance Regions, section 2.3.
 */
export function twoSidedToleranceFactor(n: number, coverage: number, confidence: number): number {
  const nodes = nodesFor(n, coverage);
  const score = normalQuantile(confidence);
  const degrees = n - 1;
  const central = -normalQuantile((1 - coverage) / 2);
  // The chi-square quantile it needs by the cube of a normal number (Wilson and Hilferty 1931).
  const cube = 1 - 2 / (9 * degrees) - score * Math.sqrt(2 / (9 * degrees));
  const howe = central * Math.sqrt((1 + 1 / n) / Math.max(0.001, cube) ** 3);
  return rootOfIncreasing(
    (k) => {
      const { holds, fails, slope } = confidenceAt(k, n, nodes);
      const scoreHere = holds < fails ? normalQuantile(holds) : -normalQuantile(fails);
      return { value: scoreHere - score, slope: slope / normalDensity(scoreHere) };
    },
    howe,
    howe / 4,
    { from: 0 },
  );
}

/** The confidence with which mean -+ k s holds at least the coverage of a normal population. */
export function twoSidedToleranceConfidence(n: number, coverage: number, k: number): number {
  return k <= 0 ? 0 : confidenceAt(k, n, nodesFor(n, coverage)).holds;
}

interface Node {
  weight: number;
  /** Square of half the width needed. */
  squaredWidth: number;
}

/** The trapezoidal rule over the error of the mean, by symmetry for errors above 0 only. */
function nodesFor(n: number, coverage: number): Node[] {
  const step = 0.2;
  const nodes: Node[] = [];
  const central = -normalQuantile((1 - coverage) / 2);
  let halfWidth = central;
  for (let z = 0; z < 8.6; z += step) {
    const off = z / Math.sqrt(n);
    halfWidth = rootOfIncreasing(
      (r) => ({
        value: 1 - coverage - normalCdf(-off - r) - normalCdf(off - r),
        slope: normalDensity(off + r) + normalDensity(off - r),
      }),
      halfWidth,
      central,
      { from: 0 },
    );
    nodes.push({ weight: (z === 0 ? 1 : 2) * step * normalDensity(z), squaredWidth: halfWidth * halfWidth });
  }
  return nodes;
}

function confidenceAt(k: number, n: number, nodes: Node[]): { holds: number; fails: number; slope: number } {
  const half = (n - 1) / 2;
  let [holds, fails, slope] = [0, 0, 0];
  for (const { weight, squaredWidth } of nodes) {
    const x = (half * squaredWidth) / (k * k);
    const { below, above, density } = gammaShare(half, x);
    holds += weight * above;
    fails += weight * below;
    slope += (weight * 2 * density * x) / k;
  }
  return { holds, fails, slope };
}
