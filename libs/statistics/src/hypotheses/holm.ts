import { type NotEvaluated, notEvaluated } from '@breakbook/lab';
import { requireFraction } from '../requirements.js';

export interface HolmAdjustment {
  method: 'Holm';
  alpha: number;
  /** In the order given: the smallest alpha at which each would be called a difference. */
  adjusted: number[];
  rejected: boolean[];
}

/**
 * Which of several tests show a difference, if the chance of even one false alarm among them all is to stay within alpha?
 *
 *     adjusted of the i-th smallest p = max over j <= i of min(1, (m - j + 1) p_(j))
 *
 * for m tests; a test is called out where its adjusted value is at most alpha. Holds however the tests depend on each
 * other. Smallest: 1 test.
 *
 * Source: Holm (1979), Scand. J. Statist. 6, 65-70.
 */
export function holm(p: readonly number[], alpha: number): HolmAdjustment | NotEvaluated {
  requireFraction('holm', { alpha });
  p.forEach((value, index) => {
    if (!(value >= 0 && value <= 1)) throw new RangeError(`holm: p[${index}] must lie within 0 and 1; got ${value}.`);
  });
  if (p.length === 0) return notEvaluated('there are no tests', 'at least 1 p is given');
  const order = p.map((_, index) => index).sort((a, b) => (p[a] as number) - (p[b] as number));
  const adjusted = new Array<number>(p.length).fill(0);
  let least = 0;
  order.forEach((index, place) => {
    least = Math.max(least, Math.min(1, (p.length - place) * (p[index] as number)));
    adjusted[index] = least;
  });
  return { method: 'Holm', alpha, adjusted, rejected: adjusted.map((value) => value <= alpha) };
}
