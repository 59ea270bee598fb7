import type { Generator } from './generator.js';

/** Where each specimen would be ended, if it did not break before; in no order, infinite where nothing would end it. */
export interface Ceilings {
  draw(chance: Generator): Iterable<number>;
  described: string;
}

/**
 * What would end specimens early in a test like this one?
 *
 * - Survivors that all held one value, no smaller than any break: that value ends every specimen (a rig's limit).
 * - Other survivors are ended where they were; a specimen that broke is given an end drawn from those beyond its break,
 *   by the survival steps in which ends count as breaks and breaks as withdrawals, or none.
 *
 * Source: the conditional bootstrap for censored samples, Davison and Hinkley (1997), Bootstrap Methods and their
 * Application, section 3.5.
 */
export function ceilingsOf(exact: Float64Array, atLeast: Float64Array): Ceilings {
  if (atLeast.length === 0)
    return {
      draw: () => new Float64Array(exact.length).fill(Number.POSITIVE_INFINITY),
      described: 'every specimen is taken to its break',
    };
  const limit = atLeast[0] as number;
  if (atLeast.every((held) => held === limit) && exact.every((broke) => broke <= limit))
    return {
      draw: () => new Float64Array(exact.length + atLeast.length).fill(limit),
      described: 'every specimen is ended at the one value the survivors held',
    };
  const ends = endingSteps(exact, atLeast);
  return {
    *draw(chance) {
      yield* atLeast;
      for (const broke of exact) yield endBeyond(broke, ends, chance);
    },
    described:
      'survivors are ended where they were, and specimens that broke at an end drawn from those the survivors had beyond',
  };
}

/** The value at which specimens are ended, and the share not ended by then. */
interface EndingStep {
  value: number;
  remaining: number;
}

/** The survival steps of the ends themselves. Of a break and an end at one value the break counts first. */
function endingSteps(exact: Float64Array, atLeast: Float64Array): EndingStep[] {
  const ends = atLeast.toSorted();
  const breaks = exact.toSorted();
  const steps: EndingStep[] = [];
  let [remaining, broken] = [1, 0];
  for (let index = 0; index < ends.length; index++) {
    const value = ends[index] as number;
    while (broken < breaks.length && (breaks[broken] as number) <= value) broken++;
    remaining *= 1 - 1 / (ends.length - index + breaks.length - broken);
    steps.push({ value, remaining });
  }
  return steps;
}

function endBeyond(broke: number, steps: readonly EndingStep[], chance: Generator): number {
  const here = steps.findLast(({ value }) => value < broke)?.remaining ?? 1;
  const drawn = chance.uniform() * here;
  // The end is the first beyond the break by which no more than the drawn share remains; none, if more always does.
  return steps.find(({ value, remaining }) => value >= broke && remaining <= drawn)?.value ?? Number.POSITIVE_INFINITY;
}
