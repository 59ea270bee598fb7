import type { Family } from '../fits/family.js';
import type { Observations } from '../fits/observations.js';
import type { Generator } from './generator.js';

/** A population of location-scale form, on the scale of the observations. */
export interface Population {
  family: Family;
  location: number;
  scale: number;
}

/** Draws tests like one that was made: as many specimens, ended early in the same way. */
export interface SimulatedTest {
  draw(population: Population, chance: Generator): Observations;
  /** How the simulation ends specimens early, in words. */
  described: string;
}

/**
 * How would tests like this one come out, if the population were known? Strengths are drawn anew; what ended specimens
 * early is taken from the test itself:
 *
 * - survivors that all held one value, no smaller than any break: that value ends every specimen (a rig's limit);
 * - other survivors are ended where they were; a specimen that broke is given an end drawn from those beyond its break,
 *   by the survival steps in which ends count as breaks and breaks as withdrawals, or none;
 * - specimens known within an interval, or as at most, are read at all the ends such values have.
 *
 * Source: the conditional bootstrap for censored samples, Davison and Hinkley (1997), Bootstrap Methods and their
 * Application, section 3.5.
 */
export function simulatedTest({ exact, atLeast, atMost, lower, upper }: Observations): SimulatedTest {
  const grid = [...new Set([...lower, ...upper, ...atMost])].sort((a, b) => a - b);
  const read = lower.length + atMost.length;
  const ceilings = ceilingsOf(exact, atLeast);
  return {
    described: [
      ceilings.described,
      ...(read > 0 ? ['specimens known within an interval are read at all the ends such values have'] : []),
    ].join('; '),
    draw({ family, location, scale }, chance) {
      const strength = () => location + scale * family.quantile(chance.uniform());
      const drawn = { exact: [] as number[], atLeast: [] as number[], atMost: [] as number[] };
      const [low, high] = [[] as number[], [] as number[]];
      for (const ceiling of ceilings.draw(chance)) {
        const y = strength();
        if (y <= ceiling) drawn.exact.push(y);
        else drawn.atLeast.push(ceiling);
      }
      for (let specimen = 0; specimen < read; specimen++) {
        const y = strength();
        const next = grid.findIndex((end) => y <= end);
        if (next === 0) drawn.atMost.push(grid[0] as number);
        else if (next < 0) drawn.atLeast.push(grid[grid.length - 1] as number);
        else {
          low.push(grid[next - 1] as number);
          high.push(grid[next] as number);
        }
      }
      return {
        exact: Float64Array.from(drawn.exact),
        atLeast: Float64Array.from(drawn.atLeast),
        atMost: Float64Array.from(drawn.atMost),
        lower: Float64Array.from(low),
        upper: Float64Array.from(high),
        n: exact.length + atLeast.length + read,
        failures: drawn.exact.length + drawn.atMost.length + low.length,
      };
    },
  };
}

/** Where each specimen that is not read at a grid would be ended, if it did not break before. */
interface Ceilings {
  draw(chance: Generator): Iterable<number>;
  described: string;
}

function ceilingsOf(exact: Float64Array, atLeast: Float64Array): Ceilings {
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
