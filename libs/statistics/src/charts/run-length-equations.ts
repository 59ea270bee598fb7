import { normalCdf, normalDensity } from '../distributions/normal.js';
import { gaussLegendre } from '../numerics/gauss-legendre.js';
import { stepsToAbsorption } from '../numerics/steps-to-absorption.js';
import { ewmaSd } from './ewma-chart.js';

/** As many states as are worked through without making anyone wait. */
const MOST_POINTS = 700;

/** How the standardised values that a chart sees are distributed: normal. */
export interface Seen {
  mean: number;
  sd: number;
}

/** Mean number of values until one lies outside -width to width, or above width alone. */
export function individualsRunLength(width: number, sides: 1 | 2, { mean, sd }: Seen): number {
  const above = normalCdf((mean - width) / sd);
  return 1 / (sides === 1 ? above : above + normalCdf((-width - mean) / sd));
}

/**
 * Mean number of values until the weighted mean, started at 0, lies outside its final limits -h to h (or above h alone):
 *
 *     L(u) = 1 + integral of L(y) phi((y - (1 - lambda) u) / lambda) / lambda dy     over values y within the limits
 *
 * by Gauss-Legendre points (Nystrom), which make of it a chain of states (see `stepsToAbsorption`); undefined where that
 * takes too many of them. With one side there is no lower limit; values are followed as far down as they go.
 *
 * Source: Crowder (1987), Technometrics 29, 401-407.
 */
export function ewmaRunLength(lambda: number, width: number, sides: 1 | 2, { mean, sd }: Seen): number | undefined {
  const high = width * ewmaSd(lambda);
  const low = sides === 2 ? -high : Math.min(0, mean) - 9 * ewmaSd(lambda) * sd;
  const kernel = (y: number, u: number) => normalDensity(((y - (1 - lambda) * u) / lambda - mean) / sd) / (lambda * sd);
  const leave = (u: number) => {
    const beyond = (limit: number) => ((limit - (1 - lambda) * u) / lambda - mean) / sd;
    return normalCdf(-beyond(high)) + (sides === 2 ? normalCdf(beyond(low)) : 0);
  };
  return nystrom({ from: low, to: high, kernel, scale: lambda * sd, atom: () => 0, leave });
}

/**
 * Mean number of values until a one-sided cumulative sum, started at 0, exceeds h:
 *
 *     L(s) = 1 + L(0) Phi(k - s) + integral from 0 to h of L(y) phi(y + k - s) dy
 *
 * by Gauss-Legendre points and the point 0, where the sum may rest.
 *
 * Source: Page (1954), Biometrika 41, 100-115; Vance (1986), J. Qual. Technol. 18, 189-193.
 */
export function cusumRunLength(k: number, h: number, { mean, sd }: Seen): number | undefined {
  const kernel = (y: number, s: number) => normalDensity((y + k - s - mean) / sd) / sd;
  return nystrom({
    from: 0,
    to: h,
    kernel,
    scale: sd,
    atom: (s) => normalCdf((k - s - mean) / sd),
    leave: (s) => normalCdf((s + mean - h - k) / sd),
  });
}

interface Equation {
  from: number;
  to: number;
  /** Density of the next value y, given the present one. */
  kernel(y: number, present: number): number;
  /** Width of the kernel in y. */
  scale: number;
  /** Chance that the next value is exactly 0. */
  atom(present: number): number;
  /** Chance that the next value gives a signal. */
  leave(present: number): number;
}

/**
 * The solution at 0 of L = 1 + L(0) atom + integral of L kernel, the place 0 taken as a state of its own; undefined where
 * the kernel is so narrow beside the range that it would take too many points.
 */
function nystrom({ from, to, kernel, scale, atom, leave }: Equation): number | undefined {
  const range = to - from;
  // So many points follow a normal kernel of this width to about twelve digits.
  const needed = 24 + Math.ceil((3.2 * range) / scale);
  if (needed > MOST_POINTS) return undefined;
  const { points, weights } = gaussLegendre(needed);
  const places = [0, ...Array.from(points, (point) => from + range * point)];
  return stepsToAbsorption({
    moves: places.map((present) =>
      Float64Array.from(places, (y, column) =>
        column === 0 ? atom(present) : range * (weights[column - 1] as number) * kernel(y, present),
      ),
    ),
    leave: Float64Array.from(places, leave),
  });
}
