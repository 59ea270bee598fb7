import { type NotEvaluated, notEvaluated } from '@breakbook/lab';
import { leastSquaresSlope } from './least-squares-slope.js';
import { firstAt } from './vented-zero.js';

export interface Ramp {
  /** Last crossing of 10 % of the peak before the first crossing of 90 %. Seconds. */
  t10: number;
  t90: number;
  /** Pressure per second. */
  rate: number;
  by: 'crossings' | 'segments';
  /** The parts of the ramp between holds, with their slopes; one part where there is no hold. */
  segments: { from: number; to: number; slope: number }[];
}

const FEWEST_IN_SEGMENT = 3;

/**
 * How fast did the pressure rise?
 *
 *     rate = 0.8 P / (t90 − t10)
 *
 * t90 is the first crossing of 0.9 P, t10 the last crossing of 0.1 P before it, both interpolated between samples.
 * Where the pressure was held on the way, a rate over the whole would count the holds: then it is the mean of the least
 * squares slopes of the parts between them. `asked` has either way taken whatever was held.
 *
 * Common practice, no source.
 */
export function rampOf(
  time: Float64Array,
  pressure: Float64Array,
  peak: number,
  holds: readonly { entry: number; exit: number }[],
  asked?: 'crossings' | 'parts',
): Ramp | NotEvaluated {
  const above = firstIndex(pressure, (value) => value >= 0.9 * peak);
  if (above === undefined || above === 0)
    return notEvaluated('the record begins above 90 % of its peak', 'the record begins with the line vented');
  let below = above - 1;
  while (below >= 0 && (pressure[below] as number) >= 0.1 * peak) below--;
  if (below < 0)
    return notEvaluated('the record begins above 10 % of its peak', 'the record begins with the line vented');

  const t90 = interpolated(time, pressure, above - 1, 0.9 * peak);
  const t10 = interpolated(time, pressure, below, 0.1 * peak);
  const segments = between(t10, t90, holds).flatMap(({ from, to }) => {
    const [first, last] = [firstAt(time, from), firstAt(time, to)];
    if (last - first < FEWEST_IN_SEGMENT) return [];
    return [{ from, to, slope: leastSquaresSlope(time, pressure, first, last) }];
  });
  if (segments.length === 0)
    return notEvaluated(
      `fewer than ${FEWEST_IN_SEGMENT} samples lie on the ramp`,
      'the ramp is sampled faster or run slower',
    );
  const held = holds.some(({ entry, exit }) => exit > t10 && entry < t90);
  const by = asked === 'parts' || (held && asked !== 'crossings') ? 'segments' : 'crossings';
  const rate =
    by === 'segments'
      ? segments.reduce((sum, { slope }) => sum + slope, 0) / segments.length
      : (0.8 * peak) / (t90 - t10);
  return { t10, t90, rate, by, segments };
}

/** What is left of a stretch of time when the holds are taken out. */
function between(from: number, to: number, holds: readonly { entry: number; exit: number }[]) {
  const parts: { from: number; to: number }[] = [];
  let start = from;
  for (const { entry, exit } of [...holds].sort((a, b) => a.entry - b.entry)) {
    if (exit <= start || entry >= to) continue;
    if (entry > start) parts.push({ from: start, to: entry });
    start = exit;
  }
  if (start < to) parts.push({ from: start, to });
  return parts;
}

function interpolated(time: Float64Array, pressure: Float64Array, i: number, level: number): number {
  const [t, p] = [time[i] as number, pressure[i] as number];
  const [nextT, nextP] = [time[i + 1] as number, pressure[i + 1] as number];
  return t + ((level - p) / (nextP - p)) * (nextT - t);
}

function firstIndex(values: Float64Array, test: (value: number) => boolean): number | undefined {
  const index = values.findIndex(test);
  return index < 0 ? undefined : index;
}

/**
 * Which share of the ramp's time was its slope inside the band? The ramp is cut into twenty parts of equal time (in
 * proportion over its segments) and the least squares slope of each is asked; parts with fewer than three samples count
 * with the slope of their segment.
 */
export function shareInBand(
  time: Float64Array,
  pressure: Float64Array,
  { segments }: Ramp,
  band: { from: number; to: number },
): { share: number; slowest: number; fastest: number } {
  const total = segments.reduce((sum, { from, to }) => sum + (to - from), 0);
  let [inside, slowest, fastest] = [0, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const { from, to, slope } of segments) {
    const parts = Math.max(1, Math.round((20 * (to - from)) / total));
    const length = (to - from) / parts;
    for (let part = 0; part < parts; part++) {
      const [first, last] = [firstAt(time, from + part * length), firstAt(time, from + (part + 1) * length)];
      const here = last - first < FEWEST_IN_SEGMENT ? slope : leastSquaresSlope(time, pressure, first, last);
      if (here >= band.from && here <= band.to) inside += length;
      slowest = Math.min(slowest, here);
      fastest = Math.max(fastest, here);
    }
  }
  return { share: inside / total, slowest, fastest };
}
