import { type HeatParameters, notEvaluated } from '@breakbook/lab';
import { printSignificant, valueIn } from '@breakbook/units';
import type { Computed } from './characteristic.js';
import { NO_TEMPERATURE } from './heat.js';
import { type HeatSource, inStage } from './heat-source.js';
import { brakedSpan, gapsIn, mainStretch, type Stretch } from './heat-stretch.js';
import type { Span } from './time-above.js';
import { seconds } from './words.js';

/**
 * After how long did the track come to rest? From the first braking of the stage with the most energy to the first moment
 * at which, over the method's window before it, the straight line through the hottest track temperature rises or falls by
 * no more than the method's kelvin a minute, and the power stays in its band for the method's share of the time. One that
 * did not come to rest would have taken longer than it was braked.
 *
 * Common practice, no source; window, slope, band and share are the method's.
 */
export function timeToSteady(source: HeatSource): Computed {
  const { method } = source;
  const steady = method.parameters.steadyState;
  const none = (because: string, possibleIf: string): Computed => ({
    value: notEvaluated(because, possibleIf),
    unit: 's',
    steps: [],
  });
  if (!steady)
    return none(
      `method ${method.method} rev. ${method.revision} does not say when a track counts as steady`,
      'a revision of the method states window and slope',
    );
  const stretch = mainStretch(source.stretches);
  const span = brakedSpan(stretch);
  if (!span) return none('the brake was never on', 'a record that holds the braking of this specimen is read');
  if (gapsIn(stretch, span.last).length > 0)
    return none('the record has a gap while the brake was on', 'the stage is recorded without gaps');
  const { hottest, record } = stretch.features;
  if (hottest.subarray(span.from, span.last + 1).includes(NO_TEMPERATURE))
    return none('every track thermocouple was open for a part of it', 'a track sensor stays connected');

  const { time } = record;
  const begins = time[span.from] as number;
  const at = firstSteady(stretch, span, method.parameters, {
    window: valueIn(steady.window, 's'),
    slope: steady.slopeAtMost / 60,
  });
  const value = (time[at ?? span.last] as number) - begins;
  const asked = `${printSignificant(steady.slopeAtMost, 3)} K/min over ${seconds(valueIn(steady.window, 's'))}`;
  return {
    value: { kind: at === undefined ? 'atLeast' : 'exact', value },
    unit: 's',
    steps: [
      {
        question: 'When did the track come to rest?',
        numbers: {
          'window, s': valueIn(steady.window, 's'),
          'slope at most, K/min': steady.slopeAtMost,
          'braked for, s': (time[span.last] as number) - begins,
        },
        answer:
          at === undefined
            ? `Not within the ${seconds(value)} of braking${inStage(source, stretch)}: it never kept to ${asked} with the power in its band.`
            : `${seconds(value)} after the brake came on${inStage(source, stretch)}: from there it had kept to ${asked} with the power in its band.`,
      },
    ],
  };
}

/** The first sample at which the window before it was steady; slopes in K/s by running sums over the window. */
function firstSteady(
  { features, programme }: Stretch,
  span: Span,
  { powerBand, powerShareInBand, control }: HeatParameters,
  asked: { window: number; slope: number },
): number | undefined {
  const { time } = features.record;
  const { hottest, steadyPower } = features;
  // A constant lever weight asks for no power; then it is held against its own mean over the window.
  const target = programme && control !== 'constant lever weight' ? valueIn(programme.power, 'W') : undefined;
  const sums = { n: 0, x: 0, y: 0, xx: 0, xy: 0, p: 0 };
  // Counted from the start, so that squares of times stay small.
  const add = (i: number, sign: 1 | -1) => {
    const x = (time[i] as number) - (time[span.from] as number);
    const y = (hottest[i] as number) - (hottest[span.from] as number);
    sums.n += sign;
    sums.x += sign * x;
    sums.y += sign * y;
    sums.xx += sign * x * x;
    sums.xy += sign * x * y;
    sums.p += sign * (steadyPower[i] as number);
  };
  let first = span.from;
  for (let i = span.from; i <= span.last; i++) {
    add(i, 1);
    while ((time[i] as number) - (time[first + 1] as number) >= asked.window) add(first++, -1);
    if ((time[i] as number) - (time[first] as number) < asked.window) continue;
    const { n, x, y, xx, xy, p } = sums;
    const slope = (n * xy - x * y) / (n * xx - x * x);
    if (Math.abs(slope) > asked.slope) continue;
    if (shareNear(steadyPower, { from: first, last: i }, target ?? p / n, powerBand) >= powerShareInBand) return i;
  }
  return undefined;
}

function shareNear(values: Float64Array, { from, last }: Span, target: number, band: number): number {
  let inside = 0;
  for (let i = from; i <= last; i++) if (Math.abs((values[i] as number) - target) <= band * target) inside++;
  return inside / (last - from + 1);
}
