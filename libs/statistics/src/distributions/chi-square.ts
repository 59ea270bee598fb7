import { gammaShare } from './gamma.js';

/** Share of a chi-square distribution with these degrees of freedom (any number above 0) above x >= 0. */
export function chiSquareAbove(x: number, degrees: number): number {
  return gammaShare(degrees / 2, x / 2).above;
}

/** Share of a chi-square distribution with these degrees of freedom below x >= 0. */
export function chiSquareBelow(x: number, degrees: number): number {
  return gammaShare(degrees / 2, x / 2).below;
}
