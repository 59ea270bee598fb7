import { normalCdf } from './normal.js';

/** Share of a standard normal population between two points (either may be infinite), precise in both tails. */
export function normalBetween(from: number, to: number): number {
  // In the upper tail the shares below differ in their last digits only; those above do not.
  return from > 0 ? normalCdf(-from) - normalCdf(-to) : normalCdf(to) - normalCdf(from);
}
