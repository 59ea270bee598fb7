import { type NotEvaluated, notEvaluated, type Sample } from '@breakbook/lab';

/**
 * A step of the survival function: above `from` and by `to` it falls to `survival`. `from` is `to` where it is known
 * exactly, and minus infinity where nothing says that the specimen held anything.
 */
export interface TurnbullStep {
  from: number;
  to: number;
  survival: number;
}

/**
 * What share of the specimens survives each strength, whatever the distribution, when some strengths are known only within
 * intervals? The steps p_j that make
 *
 *     ln L = sum over specimens of ln(sum over the steps its interval holds of p_j)
 *
 * largest, found by Turnbull's self-consistency: each specimen is shared over the steps its interval holds in proportion
 * to p_j, and the shares are the next p_j. Steps can lie only in the places where an interval begins and the next end of
 * any is that of one. The search ends when ln L can rise by no more than 1e-9 for each specimen: n times the largest
 * excess of a derivative over n bounds what is left (Lindsay 1983, Ann. Statist. 11, 86-94).
 *
 * An interval holds its upper end and not its lower: "held a, broke by b". Without intervals these are the steps of
 * Kaplan and Meier.
 *
 * Source: Turnbull (1976), J. R. Statist. Soc. B 38, 290-295; the places after Gentleman and Geyer (1994), Biometrika 81,
 * 618-623.
 */
export function turnbullSteps(sample: Sample): TurnbullStep[] | NotEvaluated {
  const spans = spansOf(sample);
  const places = placesOf(spans);
  const holding = spans.map((span) => rangeWithin(places, span));
  const n = spans.length;
  const shares = new Float64Array(places.length).fill(1 / places.length);
  const pull = new Float64Array(places.length);
  for (let round = 0; round < 200_000; round++) {
    pull.fill(0);
    for (const [first, last] of holding) {
      let mass = 0;
      for (let place = first; place <= last; place++) mass += shares[place] as number;
      for (let place = first; place <= last; place++) pull[place] = (pull[place] as number) + 1 / mass;
    }
    let excess = 0;
    for (let place = 0; place < places.length; place++) {
      excess = Math.max(excess, (pull[place] as number) / n - 1);
      shares[place] = ((shares[place] as number) * (pull[place] as number)) / n;
    }
    if (excess < 1e-9) return stepsFrom(places, shares);
  }
  return notEvaluated(
    'the search for the likeliest steps did not settle within 200000 rounds',
    'intervals overlap less, or strengths are known exactly',
  );
}

/** Where one strength can lie: above `low`, or at it where `closed`, and at `high` at most. */
interface Span {
  low: number;
  closed: boolean;
  high: number;
}

function spansOf({ exact = [], atLeast = [], atMost = [], between = [] }: Sample): Span[] {
  return [
    ...exact.map((value) => ({ low: value, closed: true, high: value })),
    ...atLeast.map((low) => ({ low, closed: false, high: Number.POSITIVE_INFINITY })),
    ...atMost.map((high) => ({ low: Number.NEGATIVE_INFINITY, closed: false, high })),
    ...between.map(([low, high]) => ({ low, closed: false, high })),
  ];
}

/** Where a lower end is followed at once by an upper one. At one value a closed lower end comes first, an open one last. */
function placesOf(spans: readonly Span[]): Span[] {
  const ends = spans
    .flatMap((span) => [
      { value: span.low, order: span.closed ? 0 : 2, upper: false },
      { value: span.high, order: 1, upper: true },
    ])
    .sort((a, b) => (a.value === b.value ? a.order - b.order : a.value < b.value ? -1 : 1));
  const places: Span[] = [];
  for (let index = 1; index < ends.length; index++) {
    const [before, here] = [ends[index - 1], ends[index]];
    if (before && here && !before.upper && here.upper)
      places.push({ low: before.value, closed: before.order === 0, high: here.value });
  }
  return places;
}

/** The first and last place that lies within a span; places are in order, so all between do too. */
function rangeWithin(places: readonly Span[], span: Span): [number, number] {
  const within = (place: Span) =>
    place.high <= span.high && (place.low > span.low || (place.low === span.low && (span.closed || !place.closed)));
  return [places.findIndex(within), places.findLastIndex(within)];
}

function stepsFrom(places: readonly Span[], shares: Float64Array): TurnbullStep[] {
  const steps: TurnbullStep[] = [];
  let survival = 1;
  for (const [index, place] of places.entries()) {
    if (place.high === Number.POSITIVE_INFINITY) break;
    const share = shares[index] as number;
    survival -= share;
    // What the search left of a place that has no step.
    if (share < 1e-7) continue;
    steps.push({ from: place.low, to: place.high, survival: Math.max(0, survival) });
  }
  return steps;
}
