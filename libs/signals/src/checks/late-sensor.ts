import { type BurstParameters, isNotEvaluated } from '@breakbook/lab';
import { valueIn } from '@breakbook/units';
import type { BurstFeatures } from '../features/burst.js';
import { letGo } from '../features/failure.js';
import { runningMedian } from '../features/running-median.js';
import { ventedZero } from '../features/vented-zero.js';
import { seconds } from '../features/words.js';
import type { Finding } from './finding.js';

/** The fall is timed where each sensor passes this share of its own peak. */
const LEVEL = 0.5;
/** Sensors on one line see a burst within this time of each other, s, and within as many sample periods. Common practice, no source. */
const APART = 0.05;
const PERIODS = 3;

/** Do two sensors on one pressure see the burst at the same moment? Left out where nothing burst. */
export function lateSensor(
  time: Float64Array,
  { despiked, ending, peak }: BurstFeatures,
  second: { channel: string; pressure: Float64Array },
  period: number,
  parameters: BurstParameters,
): Finding[] {
  if (!letGo(ending)) return [];
  const start = time[0] as number;
  const zero = ventedZero(time, second.pressure, start, start + valueIn(parameters.zeroTime, 's'));
  if (isNotEvaluated(zero)) return [];
  const other = runningMedian(second.pressure, parameters.despikeSamples).map((value) => value - zero.zero);
  let largest = 0;
  for (const value of other) if (value > largest) largest = value;
  // A sensor that saw no pressure saw no burst: the comparison of the two says so.
  if (largest < LEVEL * peak.value) return [];

  const named = { check: 'late sensor', question: 'Do the two pressure sensors see the burst at the same moment?' };
  const [here, there] = [lastAbove(despiked, LEVEL * peak.value), lastAbove(other, LEVEL * largest)];
  const [at, of] = [time[here] as number, time[there] as number];
  const off = of - at;
  const most = Math.max(APART, PERIODS * period);
  const finding = `The second falls ${seconds(Math.abs(off))} ${off < 0 ? 'before' : 'after'} the first; up to ${seconds(most)} is usual.`;
  if (Math.abs(off) <= most) return [{ check: { ...named, outcome: 'pass', finding } }];
  return [
    {
      check: {
        ...named,
        outcome: 'flag',
        finding,
        action:
          'Find out which channel is late: a filter or a slow logger in one of them shifts every moment read from it.',
        place: { channel: second.channel, from: Math.min(at, of), to: Math.max(at, of) },
      },
      signal: 'signal.misaligned',
    },
  ];
}

function lastAbove(values: Float64Array, level: number): number {
  let i = values.length - 1;
  while (i > 0 && (values[i] as number) <= level) i--;
  return i;
}
