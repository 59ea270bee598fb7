import { normalCdf, normalQuantile } from '../distributions/normal.js';
import { requireFraction, requirePositive } from '../requirements.js';
import type { HalfWidthShape } from './standard-uncertainty.js';

/** One independent part of an error: normal with a standard deviation, or bounded by a half width. */
export type ErrorPart = { shape: 'normal'; u: number } | { shape: HalfWidthShape; halfWidth: number };

/** Cells over the whole range of the sum: each part then loses some 1e-4 of its variance to the grid. */
const CELLS = 900;
/** A normal part beyond this many standard deviations, 2e-9 of it, is left out. */
const REACH = 6;

/**
 * How wide is the interval about zero that holds a sum of independent errors with this probability?
 *
 *     P(|X₁ + X₂ + ...| ≤ U) = coverage
 *
 * by convolution of the distributions of the parts: normal, rectangular, triangular, or arc sine (`u-shaped`). Where one
 * bounded part outweighs the others, U is less than twice the standard uncertainty: 0.95 √3 u for one rectangle alone. All
 * in one unit.
 *
 * The normal parts are joined to one. The others are spread over cells by their distribution function, and cells are
 * convolved; within a cell the sum is taken as evenly spread. One part alone is answered by its quantile.
 *
 * Source: propagation of distributions, JCGM 101:2008, 5.2 and 5.3.4, which leaves the way open (5.4.1); distributions of
 * the parts 6.4.2, 6.4.5, 6.4.6 and 6.4.7.
 */
export function coverageOfParts(parts: readonly ErrorPart[], coverage: number): number {
  requireFraction('coverageOfParts', { coverage });
  if (parts.length === 0) throw new RangeError('coverageOfParts: needs at least one part; got none.');
  for (const part of parts)
    requirePositive('coverageOfParts', part.shape === 'normal' ? { u: part.u } : { halfWidth: part.halfWidth });

  const joined = withOneNormal(parts);
  const [only] = joined;
  if (only && joined.length === 1) return quantileOf(only, coverage);

  const range = joined.reduce((sum, part) => sum + reachOf(part), 0);
  const cell = (2 * range) / CELLS;
  const sum = joined
    .map((part) => cellsOf(part, cell))
    .sort((a, b) => a.length - b.length)
    .reduce(convolved);
  return halfWidthOf(sum, cell, coverage);
}

function withOneNormal(parts: readonly ErrorPart[]): ErrorPart[] {
  const bounded = parts.filter(({ shape }) => shape !== 'normal');
  const variance = parts.reduce((sum, part) => (part.shape === 'normal' ? sum + part.u * part.u : sum), 0);
  return variance === 0 ? bounded : [{ shape: 'normal', u: Math.sqrt(variance) }, ...bounded];
}

function reachOf(part: ErrorPart): number {
  return part.shape === 'normal' ? REACH * part.u : part.halfWidth;
}

function quantileOf(part: ErrorPart, coverage: number): number {
  switch (part.shape) {
    case 'normal':
      return part.u * normalQuantile((1 + coverage) / 2);
    case 'rectangular':
      return part.halfWidth * coverage;
    case 'triangular':
      return part.halfWidth * (1 - Math.sqrt(1 - coverage));
    case 'u-shaped':
      return part.halfWidth * Math.sin((Math.PI / 2) * coverage);
  }
}

/** Probability that the part lies below a value. */
function below(part: ErrorPart, value: number): number {
  if (part.shape === 'normal') return normalCdf(value / part.u);
  const share = Math.max(-1, Math.min(1, value / part.halfWidth));
  switch (part.shape) {
    case 'rectangular':
      return (1 + share) / 2;
    case 'triangular':
      return share < 0 ? (1 + share) ** 2 / 2 : 1 - (1 - share) ** 2 / 2;
    case 'u-shaped':
      return 0.5 + Math.asin(share) / Math.PI;
  }
}

/** Probabilities of cells about zero, an odd number of them. */
function cellsOf(part: ErrorPart, cell: number): Float64Array {
  const each = Math.ceil(reachOf(part) / cell);
  return Float64Array.from({ length: 2 * each + 1 }, (_, i) => {
    const middle = (i - each) * cell;
    return below(part, middle + cell / 2) - below(part, middle - cell / 2);
  });
}

function convolved(a: Float64Array, b: Float64Array): Float64Array {
  const sum = new Float64Array(a.length + b.length - 1);
  for (let i = 0; i < a.length; i++) {
    const weight = a[i] as number;
    for (let j = 0; j < b.length; j++) sum[i + j] = (sum[i + j] as number) + weight * (b[j] as number);
  }
  return sum;
}

/** Half width of the interval about the middle cell that holds this probability. */
function halfWidthOf(cells: Float64Array, cell: number, coverage: number): number {
  const middle = (cells.length - 1) / 2;
  let inside = cells[middle] as number;
  if (inside >= coverage) return ((coverage / inside) * cell) / 2;
  for (let away = 1; away <= middle; away++) {
    const both = (cells[middle - away] as number) + (cells[middle + away] as number);
    if (inside + both >= coverage) return cell * (away - 0.5 + (coverage - inside) / both);
    inside += both;
  }
  return cell * (middle + 0.5);
}
