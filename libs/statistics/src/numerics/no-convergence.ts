/** A search that did not settle within its bound of steps. Whoever can say why answers "not evaluated". */
export class NoConvergence extends Error {}

/** What `search` finds, or `otherwise` where it does not settle. */
export function settled<Found, Otherwise>(search: () => Found, otherwise: () => Otherwise): Found | Otherwise {
  try {
    return search();
  } catch (thrown) {
    if (thrown instanceof NoConvergence) return otherwise();
    throw thrown;
  }
}
