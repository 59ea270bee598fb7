import type { HeatParameters } from '@breakbook/lab';
import type { TrackSensor } from '../../features/heat.js';
import { brakedSpan, over, type Stretch } from '../../features/heat-stretch.js';
import { firstAt } from '../../features/vented-zero.js';
import { inUnit, seconds } from '../../features/words.js';
import type { Finding } from '../finding.js';
import { LEAST_RISE } from './track-sensors.js';

/** A track sensor answers to the brake within this time, s. Common practice, no source. */
const PROMPT = 5;
/** After the first rise its slope is taken over this time, s. */
const SLOPE = 10;
/** A slope below this, in kelvin a second, is too flat to time anything by. */
const LEAST_SLOPE = 0.2;

/**
 * Does this track temperature belong to this braking? A track warms from the moment the brake comes on and cools from the
 * moment it is let go. A channel that warms before, starts late, or goes on warming after, was shifted in time.
 *
 * The start is timed by energy: the rise by 5 K should have taken the energy that the rise after it took for its own.
 */
export function lateTrack(stretch: Stretch, sensor: TrackSensor, parameters: HeatParameters): Finding[] {
  const span = brakedSpan(stretch);
  if (!span || sensor.open || jumps(stretch, sensor, parameters.detachedRate)) return [];
  const named = { check: 'late track sensor', question: `Does ${sensor.channel} warm when the brake is on?` };
  const { time } = stretch.features.record;
  const course = sensor.filtered;
  const place = (from: number, last: number) => ({
    channel: sensor.channel,
    from: time[from] as number,
    to: time[last] as number,
  });
  const flag = (finding: string, from: number, last: number): Finding[] => [
    {
      check: {
        ...named,
        outcome: 'flag',
        finding,
        action:
          'Check the clocks of the loggers: a channel shifted in time gives wrong temperatures at every moment read.',
        place: place(from, last),
      },
      signal: 'signal.misaligned',
    },
  ];

  const early = riseOver(course, stretch.from, span.from);
  if (early.rise > LEAST_RISE)
    return flag(
      `It rises by ${inUnit('K')(early.rise)} before the brake is on, from ${seconds(time[early.from] as number)} on.`,
      early.from,
      span.from,
    );
  const after = riseOver(course, span.last, stretch.last);
  if (after.rise > LEAST_RISE)
    return flag(
      `It goes on rising by ${inUnit('K')(after.rise)} after the brake was let go at ${seconds(time[span.last] as number)}.`,
      span.last,
      stretch.last,
    );
  const delay = delayOf(stretch, course, span);
  if (delay !== undefined && delay > PROMPT)
    return flag(`It begins to rise ${seconds(delay)} after the brake came on.`, span.from, span.last);
  return [
    {
      check: {
        ...named,
        outcome: 'pass',
        finding: `It neither rises before the brake is on nor after, nor starts more than ${seconds(PROMPT)} late.`,
      },
    },
  ];
}

/** A sensor that came off has no course to time; its own check says so. */
function jumps({ features, from, last }: Stretch, { filtered }: TrackSensor, detachedRate: number): boolean {
  const { time } = features.record;
  for (let i = from + 1; i <= last; i++) {
    const step = (time[i] as number) - (time[i - 1] as number);
    if (Math.abs((filtered[i] as number) - (filtered[i - 1] as number)) > detachedRate * step) return true;
  }
  return false;
}

/** Largest rise above a lower reading before it. */
function riseOver(course: Float64Array, from: number, last: number): { rise: number; from: number } {
  let [lowest, most] = [from, { rise: 0, from }];
  for (let i = from; i <= last; i++) {
    if ((course[i] as number) < (course[lowest] as number)) lowest = i;
    const rise = (course[i] as number) - (course[lowest] as number);
    if (rise > most.rise) most = { rise, from: lowest };
  }
  return most;
}

function delayOf(
  { features }: Stretch,
  course: Float64Array,
  span: { from: number; last: number },
): number | undefined {
  const { time } = features.record;
  const start = course[span.from] as number;
  let rose = span.from;
  while (rose <= span.last && (course[rose] as number) - start < LEAST_RISE) rose++;
  const later = firstAt(time, (time[rose] as number) + SLOPE);
  if (later > span.last) return undefined;
  const [rise, lasted] = [
    (course[later] as number) - (course[rose] as number),
    (time[later] as number) - (time[rose] as number),
  ];
  const energy = over(features.energy, { from: rose, last: later });
  if (energy <= 0 || rise < LEAST_SLOPE * lasted) return undefined;
  const used = over(features.energy, { from: span.from, last: rose });
  const needed = (LEAST_RISE * energy) / rise;
  return ((used - needed) * lasted) / energy;
}
