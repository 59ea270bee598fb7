import type { HeatParameters } from '@breakbook/lab';
import { valueIn } from '@breakbook/units';
import { median } from 'simple-statistics';
import { HEAT_CHANNELS, NO_TEMPERATURE } from '../../features/heat.js';
import { brakedSpan, type Stretch } from '../../features/heat-stretch.js';
import { firstAt } from '../../features/vented-zero.js';
import { inUnit, percent } from '../../features/words.js';
import type { Finding } from '../finding.js';

const celsius = inUnit('Cel');

/** Readings up to the first braking, or of the first window where it was on at once. */
function atStart(stretch: Stretch, values: Float64Array, window: number): { value: number; from: number; to: number } {
  const { time } = stretch.features.record;
  const from = time[stretch.from] as number;
  const braked = brakedSpan(stretch)?.from ?? stretch.last;
  const end = Math.max(stretch.from + 1, Math.min(braked, firstAt(time, from + window)));
  return { value: median(Array.from(values.subarray(stretch.from, end))), from, to: time[end - 1] as number };
}

/** Was the track cold when the first stage began? */
export function coldStart(stretch: Stretch, parameters: HeatParameters): Finding {
  const named = { check: 'cold start', question: 'Was the track cold when the first stage began?' };
  const most = valueIn(parameters.startAtMost, 'Cel');
  const sensors = stretch.features.track.map(({ channel, raw }) => ({
    channel,
    ...atStart(stretch, raw, valueIn(parameters.temperatureWindow, 's')),
  }));
  const hottest = sensors.reduce((a, b) => (b.value > a.value ? b : a));
  if (hottest.value <= NO_TEMPERATURE)
    return {
      check: {
        ...named,
        outcome: 'not evaluated',
        finding: 'Every track thermocouple was open then.',
        action: 'Connect a track sensor before the run.',
      },
    };
  const finding = `${hottest.channel} stood at ${celsius(hottest.value)}; the method asks for at most ${celsius(most)}.`;
  if (hottest.value <= most) return { check: { ...named, outcome: 'pass', finding } };
  return {
    check: {
      ...named,
      outcome: 'fail',
      finding,
      action: 'Let the rim cool before a run; a warm start brings it nearer to its limit with less energy.',
      place: { channel: hottest.channel, from: hottest.from, to: hottest.to },
    },
  };
}

/** Was the tyre at its pressure? */
export function tyreAtStart(stretch: Stretch, parameters: HeatParameters): Finding[] {
  const { tyre } = stretch.features.record;
  if (!tyre) return [];
  const named = { check: 'tyre pressure', question: 'Was the tyre at the pressure of the method when it began?' };
  const asked = valueIn(parameters.tyrePressure.at, 'kPa');
  const { value, from, to } = atStart(stretch, tyre, valueIn(parameters.temperatureWindow, 's'));
  const finding = `${inUnit('kPa')(value)}; the method asks for ${inUnit('kPa')(asked)} within ${percent(parameters.tyrePressure.band)}.`;
  if (Math.abs(value - asked) <= parameters.tyrePressure.band * asked)
    return [{ check: { ...named, outcome: 'pass', finding } }];
  return [
    {
      check: {
        ...named,
        outcome: 'fail',
        finding,
        action: 'Set the tyre to its pressure; it is what pushes on a softened flange.',
        place: { channel: HEAT_CHANNELS.tyre, from, to },
      },
    },
  ];
}

/** Was the air of the room within the method's temperatures throughout? */
export function roomTemperature(stretch: Stretch, parameters: HeatParameters): Finding[] {
  const { room, time } = stretch.features.record;
  if (!room) return [];
  const named = { check: 'room temperature', question: 'Was the room as warm as the method asks?' };
  const [low, high] = [valueIn(parameters.room.from, 'Cel'), valueIn(parameters.room.to, 'Cel')];
  const values = Array.from(room.subarray(stretch.from, stretch.last + 1).filter((value) => value > NO_TEMPERATURE));
  if (values.length === 0) return [];
  values.sort((a, b) => a - b);
  // One reading in a hundred on either side may be noise.
  const beyond = Math.floor(values.length / 100);
  const [least, most] = [values[beyond] as number, values[values.length - 1 - beyond] as number];
  const finding = `${celsius(least)} to ${celsius(most)}; the method asks for ${celsius(low)} to ${celsius(high)}.`;
  if (least >= low && most <= high) return [{ check: { ...named, outcome: 'pass', finding } }];
  return [
    {
      check: {
        ...named,
        outcome: 'flag',
        finding,
        action: 'Decide whether it matters: the rise above the room is what the braking made.',
        place: {
          channel: HEAT_CHANNELS.room,
          from: time[stretch.from] as number,
          to: time[stretch.last] as number,
        },
      },
    },
  ];
}
