import type { HeatParameters } from '@breakbook/lab';
import { valueIn } from '@breakbook/units';
import type { TimeSteps } from '../files/time-steps.js';
import { indexOfLargest } from './failure.js';
import { type FlatTop, findFlatTop } from './flat-top.js';
import { runningMedian } from './running-median.js';
import { windowSamples } from './window-samples.js';

/** Channels of a brake-heat record, by the names that a method gives them. */
export const HEAT_CHANNELS = {
  speed: 'surfaceSpeed',
  force: 'brakeForce',
  track: ['trackTemperatureLeft', 'trackTemperatureRight'],
  infrared: 'trackTemperatureInfrared',
  pad: 'padTemperature',
  air: 'airSpeed',
  room: 'roomTemperature',
  tyre: 'tyrePressure',
} as const;
/** What is drawn beside the channels: force times speed, W. */
export const BRAKING_POWER = 'brakingPower';

/** One file of a heat run: corrected, in m/s, N, degrees Celsius and kPa. */
export interface HeatRecord {
  time: Float64Array;
  steps: TimeSteps;
  speed: Float64Array;
  force: Float64Array;
  forceFullScale: number | undefined;
  track: { channel: string; values: Float64Array; open: Uint8Array | undefined; fullScale: number | undefined }[];
  tyre: Float64Array | undefined;
  air: Float64Array | undefined;
  room: Float64Array | undefined;
  infrared: Float64Array | undefined;
}

/** Stands where a thermocouple was open: nothing is as cold, so it is never a peak. Degrees Celsius. */
export const NO_TEMPERATURE = -273.15;

/** A course of temperatures without the readings of an open thermocouple. */
export function withoutOpen(values: Float64Array, open: Uint8Array | undefined): Float64Array {
  return open ? values.map((value, i) => (open[i] ? NO_TEMPERATURE : value)) : values;
}

export interface TrackSensor {
  channel: string;
  /** `NO_TEMPERATURE` where the thermocouple was open. */
  raw: Float64Array;
  /** 1 where it was open; undefined where it never was. */
  open: Uint8Array | undefined;
  /** Of `raw`, by the running median of the method's window. */
  filtered: Float64Array;
  /** A stretch of equal readings at full scale. */
  flatTop: FlatTop | undefined;
}

/** What a heat record shows. Sums run from the first sample; steps longer than the method's longest gap add nothing. */
export interface HeatFeatures {
  record: HeatRecord;
  longestGap: number;
  /** Force times speed as recorded, W. */
  power: Float64Array;
  /** The same by a running median of a second: whether the brake is on, and in its band. */
  steadyPower: Float64Array;
  /** 1 where the brake is on. */
  braking: Uint8Array;
  /** ∫ P dt, J; ∫ v dt, m; ∫ F dt, N·s. */
  energy: Float64Array;
  distance: Float64Array;
  forceTime: Float64Array;
  /** The same while the brake is on, with the time, s. */
  on: { time: Float64Array; energy: Float64Array; distance: Float64Array; forceTime: Float64Array };
  track: TrackSensor[];
  /** Of all track sensors at each sample. */
  hottest: Float64Array;
  forceFlatTop: FlatTop | undefined;
}

/** Seconds over which power and force are looked at; shorter changes are chatter. Common practice, no source. */
export const STEADY = 1;

/** Reads one file of a heat run by the method's parameters. The record has at least one track temperature. */
export function heatFeatures(record: HeatRecord, parameters: HeatParameters): HeatFeatures {
  const { time, speed, force, steps } = record;
  const longestGap = valueIn(parameters.longestGap, 's');
  const power = force.map((newtons, i) => newtons * (speed[i] as number));
  const steadyPower = runningMedian(power, windowSamples(STEADY, steps.period));
  const off = valueIn(parameters.offPower, 'W');
  const braking = Uint8Array.from(steadyPower, (watts) => (watts > off ? 1 : 0));

  const window = windowSamples(valueIn(parameters.temperatureWindow, 's'), steps.period);
  const track = record.track.map(({ channel, values, open, fullScale }) => {
    const raw = withoutOpen(values, open);
    return { channel, raw, open, filtered: runningMedian(raw, window), flatTop: atFullScale(time, raw, fullScale) };
  });
  const sum = (of: Float64Array) => validSum(time, of, longestGap);
  const whileOn = (of: Float64Array) => sum(of.map((value, i) => value * (braking[i] as number)));
  return {
    record,
    longestGap,
    power,
    steadyPower,
    braking,
    energy: sum(power),
    distance: sum(speed),
    forceTime: sum(force),
    on: {
      time: sum(Float64Array.from(braking)),
      energy: whileOn(power),
      distance: whileOn(speed),
      forceTime: whileOn(force),
    },
    track,
    hottest: hottestOf(track.map(({ filtered }) => filtered)),
    forceFlatTop: atFullScale(time, force, record.forceFullScale),
  };
}

/** At each sample the largest of several courses. */
export function hottestOf(courses: readonly Float64Array[]): Float64Array {
  const [first, ...others] = courses;
  if (!first) throw new RangeError('hottestOf: needs at least one temperature.');
  return first.map((value, i) => others.reduce((most, course) => Math.max(most, course[i] as number), value));
}

/** The integral over time up to each sample by trapezoids, without what lies in a gap. */
function validSum(time: Float64Array, values: Float64Array, longestGap: number): Float64Array {
  const sum = new Float64Array(time.length);
  for (let i = 1; i < time.length; i++) {
    const step = (time[i] as number) - (time[i - 1] as number);
    const mean = ((values[i] as number) + (values[i - 1] as number)) / 2;
    sum[i] = (sum[i - 1] as number) + (step > longestGap ? 0 : step * mean);
  }
  return sum;
}

function atFullScale(time: Float64Array, values: Float64Array, fullScale: number | undefined): FlatTop | undefined {
  const largest = values[indexOfLargest(values)] as number;
  const top = findFlatTop(time, values, largest, { from: 0, to: values.length }, fullScale);
  return top?.at === 'full scale' ? top : undefined;
}
