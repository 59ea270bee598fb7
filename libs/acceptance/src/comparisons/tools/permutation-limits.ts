import { isNotEvaluated, type NotEvaluated, notEvaluated } from '@breakbook/lab';
import { permutationTest } from '@breakbook/statistics';

/** Arrangements drawn for each shift that is tried, where there are too many to look at each. */
const DRAWN = 9_999;
/** Looking at every arrangement for some forty shifts is quick for groups so small. */
const SMALL = 16;

/**
 * Limits of a shift between two groups: those shifts that, taken off, leave a difference the permutation test does not call
 * out at this level. Found by halving between the difference seen and one that is certainly called out.
 *
 * Source: Pitman (1937), Suppl. J. R. Statist. Soc. 4, 119-130, section 4; limits by turning the test round.
 */
export function permutationLimits(
  a: readonly number[],
  b: readonly number[],
  level: number,
  seed: number,
): [number, number] | NotEvaluated {
  const few = a.length + b.length <= SMALL;
  const pAt = (shift: number): number => {
    const tested = permutationTest(
      a.map((value) => value - shift),
      b,
      few ? { seed } : { seed, replicates: DRAWN },
    );
    return isNotEvaluated(tested) ? 1 : tested.pTwoSided;
  };
  const all = [...a, ...b];
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  const seen = mean(a) - mean(b);
  const reach = 2 * (Math.max(...all) - Math.min(...all));
  const ends = [-1, 1].map((side) => {
    let [inside, outside] = [seen, seen + side * reach];
    if (pAt(outside) > level) return undefined;
    for (let round = 0; round < 30; round++) {
      const middle = (inside + outside) / 2;
      if (pAt(middle) > level) inside = middle;
      else outside = middle;
    }
    return outside;
  });
  const [low, high] = ends;
  return low === undefined || high === undefined
    ? notEvaluated(
        'no shift, however large, is called out at this level',
        'more specimens are tested, or the level is higher',
      )
    : [low, high];
}
