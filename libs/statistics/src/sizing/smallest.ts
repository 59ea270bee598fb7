/** No lab breaks more, and to here the distributions keep their digits. */
export const LARGEST_SIZE = 1_000_000;

/**
 * The smallest whole number from `least` on that serves, of numbers that all serve from some one on; undefined where none
 * up to `most` does. By doubling the step and then halving the bracket.
 */
export function smallestThat(serves: (n: number) => boolean, least: number, most = LARGEST_SIZE): number | undefined {
  if (serves(least)) return least;
  let tooFew = least;
  let enough = least + 1;
  for (let step = 1; !serves(enough); step *= 2) {
    if (enough >= most) return undefined;
    tooFew = enough;
    enough = Math.min(most, enough + 2 * step);
  }
  while (enough - tooFew > 1) {
    const middle = Math.floor((tooFew + enough) / 2);
    if (serves(middle)) enough = middle;
    else tooFew = middle;
  }
  return enough;
}
