import type { HeatParameters } from '@breakbook/lab';
import { valueIn } from '@breakbook/units';
import { median } from 'simple-statistics';
import { HEAT_CHANNELS } from '../../features/heat.js';
import { brakedSpan, type Stretch } from '../../features/heat-stretch.js';
import { inUnit } from '../../features/words.js';
import type { Finding } from '../finding.js';
import { LEAST_RISE, riseIn } from './track-sensors.js';

const named = { check: 'swapped channels', question: 'Does each column carry its own channel?' };
const ACTION =
  'Check the plugs at the logger and the columns of the layout; the file can be read again under a corrected layout.';

/**
 * Do two channels of one kind look exchanged? The air of the room does not follow the brake while the track stands still,
 * and wheel and air stream do not each keep to the speed of the other.
 */
export function swappedChannels(stretch: Stretch, parameters: HeatParameters): Finding[] {
  const span = brakedSpan(stretch);
  if (!span) return [];
  const { time, room } = stretch.features.record;
  const place = (channel: string) => ({ channel, from: time[span.from] as number, to: time[span.last] as number });
  const flag = (finding: string, channel: string): Finding[] => [
    {
      check: { ...named, outcome: 'flag', finding, action: ACTION, place: place(channel) },
      signal: 'signal.swapped-channels',
    },
  ];

  if (room) {
    const roomRise = riseIn({ filtered: room }, span);
    const still = stretch.features.track.find((sensor) => !sensor.open && riseIn(sensor, span) < LEAST_RISE);
    if (still && roomRise > 2 * LEAST_RISE)
      return flag(
        `${HEAT_CHANNELS.room} rose by ${inUnit('K')(roomRise)} while the brake was on, and ${still.channel} by ${inUnit('K')(riseIn(still, span))}.`,
        still.channel,
      );
  }
  const speeds = speedsOf(stretch, span, parameters);
  if (speeds?.exchanged)
    return flag(
      `The wheel turned at ${inUnit('m/s')(speeds.wheel)} and the air moved at ${inUnit('m/s')(speeds.air)}: each is what the stage asks of the other.`,
      HEAT_CHANNELS.speed,
    );
  return [{ check: { ...named, outcome: 'pass', finding: 'No two of them behave as the other should.' } }];
}

function speedsOf(
  { features: { record }, programme }: Stretch,
  { from, last }: { from: number; last: number },
  { speedBand, airSpeedBand }: HeatParameters,
): { wheel: number; air: number; exchanged: boolean } | undefined {
  if (!record.air || !programme) return undefined;
  const middle = (values: Float64Array) => median(Array.from(values.subarray(from, last + 1)));
  const [wheel, air] = [middle(record.speed), middle(record.air)];
  const [askedWheel, askedAir] = [valueIn(programme.speed, 'm/s'), valueIn(programme.airSpeed, 'm/s')];
  const near = (value: number, asked: number, band: number) => Math.abs(value - asked) <= band * asked;
  return {
    wheel,
    air,
    exchanged:
      !near(wheel, askedWheel, speedBand) &&
      !near(air, askedAir, airSpeedBand) &&
      near(wheel, askedAir, airSpeedBand) &&
      near(air, askedWheel, speedBand),
  };
}
