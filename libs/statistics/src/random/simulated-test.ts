import type { Family } from '../fits/family.js';
import type { Observations } from '../fits/observations.js';
import { ceilingsOf } from './ceilings.js';
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
 * early is taken from the test itself: survivors and specimens that broke are ended as `ceilingsOf` says; specimens known
 * within an interval, or as at most, are read at all the ends such values have.
 */
export function simulatedTest({ exact, atLeast, atMost, lower, upper }: Observations): SimulatedTest {
  const grid = [...new Set([...lower, ...upper, ...atMost])].sort((a, b) => a - b);
  const read = lower.length + atMost.length;
  // In order of size, so that chance falls on the same specimens in whatever order they were entered.
  const ceilings = ceilingsOf(exact.toSorted(), atLeast.toSorted());
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
