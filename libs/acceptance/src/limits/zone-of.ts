import type { CharacteristicValue, VerdictOutcome, Zone } from '@breakbook/lab';
import { guarded, type Range } from './limit-in-unit.js';

/** Every number that a value stands for, as the ends of an interval. */
export function spanOf(value: CharacteristicValue): [lowest: number, highest: number] {
  switch (value.kind) {
    case 'exact':
      return [value.value, value.value];
    case 'atLeast':
      return [value.value, Infinity];
    case 'atMost':
      return [-Infinity, value.value];
    case 'between':
      return [value.lower, value.upper];
  }
}

/** How far a number lies inside the limits, negative outside. */
export function insideBy(number: number, { lower, upper }: Range): number {
  return Math.min(lower === undefined ? Infinity : number - lower, upper === undefined ? Infinity : upper - number);
}

/**
 * In which of the four zones does a number lie, and, of a value known from one side, the worst number it stands for?
 * Undefined where its numbers lie on both sides of the limit.
 *
 *     m >= w  inside      0 <= m < w  inside, within the band      -w < m < 0  outside, within the band      m <= -w  outside
 *
 * m the distance inside the limits, w the guard band. "At most" and the upper end of "between" say that the part had
 * broken there: a part that had broken at the limit does not hold it.
 *
 * Source: ILAC-G8:09/2019, 4.2.3.
 */
export function zoneOf(value: CharacteristicValue, limits: Range, guardBand: number): Zone | undefined {
  const [lowest, highest] = spanOf(value);
  // The distance inside is concave, so that its least is at an end. It is taken from the limits as moved by the band, as
  // acceptance limits are printed: the difference of 507.2 and 490 is a hair less than 17.2 in floating point.
  const worst = (moved: number) => {
    const within = guarded(limits, moved);
    return Math.min(insideBy(lowest, within), insideBy(highest, within));
  };
  const broke = value.kind === 'atMost' || value.kind === 'between';
  const outside = beyond(lowest, highest, limits) || (broke && highest === limits.lower);
  if (worst(0) >= 0) return worst(guardBand) >= 0 ? 'inside the limit' : 'inside the limit, within the guard band';
  if (!outside) return undefined;
  return worst(-guardBand) > 0 ? 'outside the limit, within the guard band' : 'outside the limit';
}

/** Does every number from `lowest` to `highest` lie on the wrong side of one limit? */
function beyond(lowest: number, highest: number, { lower = -Infinity, upper = Infinity }: Range): boolean {
  return highest < lower || lowest > upper;
}

/** The outcome of each zone where the rule tells four apart (ILAC-G8:09/2019, 4.2.3). */
export const FOUR_ZONES: Record<Zone, Exclude<VerdictOutcome, 'not evaluated'>> = {
  'inside the limit': 'conforms',
  'inside the limit, within the guard band': 'conforms conditionally',
  'outside the limit, within the guard band': 'does not conform conditionally',
  'outside the limit': 'does not conform',
};
