import type { HeatParameters } from '@breakbook/lab';
import { printSignificant, valueIn } from '@breakbook/units';
import { NO_TEMPERATURE, type TrackSensor } from '../../features/heat.js';
import { brakedSpan, type Stretch } from '../../features/heat-stretch.js';
import type { Span } from '../../features/time-above.js';
import { windowSamples } from '../../features/window-samples.js';
import { inUnit, seconds } from '../../features/words.js';
import type { Finding } from '../finding.js';
import { longestApart } from '../longest-apart.js';
import { decoupledIn } from './decoupled.js';

const celsius = inUnit('Cel');
const kelvin = inUnit('K');
/** A track that is braked warms by more than this; a sensor beside it does not. Kelvin. Common practice, no source. */
export const LEAST_RISE = 5;

/** Do two track sensors agree? */
export function tracksAgree({ features, from, last }: Stretch, { trackDifference }: HeatParameters): Finding[] {
  const [left, right] = features.track;
  if (!left || !right) return [];
  const named = { check: 'track sensors', question: 'Do the two track temperatures agree?' };
  const { time } = features.record;
  const [most, longest] = [valueIn(trackDifference.most, 'K'), valueIn(trackDifference.longest, 's')];
  const apart = longestApart(time, { from, last }, most, (i) =>
    isOpen(left, i) || isOpen(right, i)
      ? undefined
      : Math.abs((left.filtered[i] as number) - (right.filtered[i] as number)),
  );
  const finding = `They differ by at most ${kelvin(apart.largest)}, by more than ${kelvin(most)} for ${seconds(apart.longest)} at a stretch; the method lets that pass for ${seconds(longest)}.`;
  if (apart.longest <= longest) return [{ check: { ...named, outcome: 'pass', finding } }];
  return [
    {
      check: {
        ...named,
        outcome: 'flag',
        finding,
        action: 'Look at both sensors and both pads: either a sensor has come loose or the brake pulls to one side.',
        place: { channel: right.channel, from: time[apart.from] as number, to: time[apart.to] as number },
      },
    },
  ];
}

/** A temperature smoothed, and where its sensor was open. */
type Course = Pick<TrackSensor, 'filtered'> & { open?: Uint8Array | undefined };

/** How far this sensor rose above its first reading of a span, K. */
export function riseIn(sensor: Course, { from, last }: Span): number {
  let [first, most]: [number | undefined, number] = [undefined, 0];
  for (let i = from; i <= last; i++) {
    if (isOpen(sensor, i)) continue;
    const value = sensor.filtered[i] as number;
    first ??= value;
    most = Math.max(most, value - first);
  }
  return most;
}

/** Does an open circuit stand for this filtered reading? */
function isOpen({ filtered, open }: Course, index: number): boolean {
  return open !== undefined && filtered[index] === NO_TEMPERATURE;
}

/** Did this track sensor stay on the track? A detached one changes at once; one beside the track does not warm. */
export function sensorAttached(stretch: Stretch, sensor: TrackSensor, parameters: HeatParameters): Finding {
  const named = { check: 'track sensor attached', question: `Did ${sensor.channel} stay on the track?` };
  const { time, steps } = stretch.features.record;
  const { channel, filtered } = sensor;
  const flag = (finding: string, at: number, signal: Finding['signal'] & string): Finding => ({
    check: {
      ...named,
      outcome: 'flag',
      finding,
      action: 'Look at the sensor and its fixing before any temperature of it is used.',
      place: { channel, from: time[at] as number, to: time[at] as number },
    },
    signal,
  });

  // The median's window shrinks towards the ends, where single readings would look like jumps.
  const reach = (windowSamples(valueIn(parameters.temperatureWindow, 's'), steps.period) - 1) / 2;
  let [fastest, at] = [0, stretch.from];
  for (let i = stretch.from + reach + 1; i <= stretch.last - reach; i++) {
    // What an open circuit shows is the business of its own check.
    if (isOpen(sensor, i) || isOpen(sensor, i - 1)) continue;
    if ((filtered[i] as number) < NO_TEMPERATURE)
      return flag(`It reads ${celsius(filtered[i] as number)}, below absolute zero.`, i, 'signal.below-absolute-zero');
    const step = (time[i] as number) - (time[i - 1] as number);
    const rate = Math.abs((filtered[i] as number) - (filtered[i - 1] as number)) / step;
    if (rate > fastest) [fastest, at] = [rate, i];
  }
  const rates = `The fastest change is ${printSignificant(fastest, 3)} K/s; the method takes ${parameters.detachedRate} K/s for a sensor that came off`;
  if (fastest > parameters.detachedRate) return flag(`${rates}.`, at, 'signal.step');

  const span = brakedSpan(stretch);
  if (!span) return { check: { ...named, outcome: 'pass', finding: `${rates}.` } };
  const rise = riseIn(sensor, span);
  // A warm rim that is braked softly may cool; then its other sensor says the same.
  const others = stretch.features.track.filter((one) => one !== sensor);
  if (
    !sensor.open &&
    rise < LEAST_RISE &&
    (others.length === 0 || others.some((one) => riseIn(one, span) >= LEAST_RISE))
  )
    return flag(`It rose by only ${kelvin(rise)} while the brake was on.`, span.last, 'signal.stuck');
  const decoupled = decoupledIn(stretch, sensor, span);
  if (decoupled) {
    const { from, to } = decoupled;
    return flag(
      `It fell by ${kelvin(decoupled.fall)} from ${seconds(time[from] as number)} to ${seconds(time[to] as number)}, while the brake was on and neither its power fell nor the air stream rose.`,
      from,
      'signal.stuck',
    );
  }
  return {
    check: { ...named, outcome: 'pass', finding: `${rates}; it rose by ${kelvin(rise)} while the brake was on.` },
  };
}
