/** Golden section: the smaller part is to the larger as the larger to the whole. */
const GOLDEN = (Math.sqrt(5) - 1) / 2;

/**
 * Where between `low` and `high` is a function with one valley smallest? The bracket shrinks by the golden section until it
 * is `tolerance` wide.
 *
 * Source: Kiefer (1953), Proc. Amer. Math. Soc. 4, 502-506.
 */
export function minimumBetween(at: (x: number) => number, low: number, high: number, tolerance: number): number {
  let [a, b] = [low, high];
  let [left, right] = [b - GOLDEN * (b - a), a + GOLDEN * (b - a)];
  let [atLeft, atRight] = [at(left), at(right)];
  while (b - a > tolerance) {
    if (atLeft <= atRight) {
      [b, right, atRight] = [right, left, atLeft];
      left = b - GOLDEN * (b - a);
      atLeft = at(left);
    } else {
      [a, left, atLeft] = [left, right, atRight];
      right = a + GOLDEN * (b - a);
      atRight = at(right);
    }
  }
  return (a + b) / 2;
}
