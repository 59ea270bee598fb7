import { type NotEvaluated, notEvaluated } from '@breakbook/lab';
import { firstAtOrAbove } from './first-at-or-above.js';
import { leastSquaresSlope } from './least-squares-slope.js';

/** The straight line that a part follows while it is lightly loaded, and where it leaves it. */
export interface Compliance {
  /** Samples of the stretch through which the line runs. */
  from: number;
  to: number;
  /** Growth per pressure, and growth at no pressure by the line. */
  slope: number;
  intercept: number;
  /** Pressure from which on the growth departs for good; undefined where it never does up to the end of the loading. */
  knee: { pressure: number; index: number } | undefined;
}

const FEWEST = 3;

/**
 * From which pressure on does a part give more than in proportion? The straight line of growth over pressure is the least
 * squares line between two shares of the peak. It departs where
 *
 *     |y − (a + b P)| > departure · b P
 *
 * and the knee is where it last passes that bound, interpolated between two samples: it stays beyond from there to the end
 * of the loading. `growth` (a width, a volume) has a value for each sample up to `last`; any unit.
 *
 * Departure by 5 %: common practice, no source.
 */
export function complianceOf(
  pressure: Float64Array,
  growth: Float64Array,
  { last, peak }: { last: number; peak: number },
  bounds: { from: number; to: number; departure: number },
): Compliance | NotEvaluated {
  const from = firstAtOrAbove(pressure, bounds.from * peak);
  const to = firstAtOrAbove(pressure, bounds.to * peak);
  if (to > last || to - from < FEWEST)
    return notEvaluated(
      `fewer than ${FEWEST} samples lie on the straight part of the loading`,
      'the loading is sampled faster or run slower',
    );
  const slope = leastSquaresSlope(pressure, growth, from, to);
  if (!(slope > 0))
    return notEvaluated(
      'the part does not grow with the pressure on the straight part of the loading',
      'the channel is connected, with its sign',
    );
  let sum = 0;
  for (let i = from; i < to; i++) sum += (growth[i] as number) - slope * (pressure[i] as number);
  const intercept = sum / (to - from);
  const beyond = (i: number) => {
    const byLine = slope * (pressure[i] as number);
    return Math.abs((growth[i] as number) - intercept - byLine) - bounds.departure * byLine;
  };
  let index = last;
  while (index >= to && beyond(index) > 0) index--;
  if (index === last) return { from, to, slope, intercept, knee: undefined };
  const [inside, outside] = [beyond(index), beyond(index + 1)];
  const [p, next] = [pressure[index] as number, pressure[index + 1] as number];
  return {
    from,
    to,
    slope,
    intercept,
    knee: { index: index + 1, pressure: p + ((next - p) * -inside) / (outside - inside) },
  };
}
