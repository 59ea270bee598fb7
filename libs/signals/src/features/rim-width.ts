import { isNotEvaluated, type NotEvaluated, notEvaluated, type Step } from '@breakbook/lab';
import { printSignificant } from '@breakbook/units';
import { median } from 'simple-statistics';
import { type ChannelReadings, onClock } from './channel-on-clock.js';
import type { Computed } from './characteristic.js';
import { firstAt } from './vented-zero.js';
import { inUnit } from './words.js';

/** Width of the rim at one point, mm: with the line vented, under pressure, and vented again. */
export interface WidthPoint {
  /** Channel or place. */
  point: string;
  before: number;
  under: number | NotEvaluated;
  after: number | NotEvaluated;
}

/** Widths are asked for at three points or more: one may miss where the rim gives. A maker's practice, from memory. */
const FEWEST_POINTS = 3;
const millimetres = inUnit('mm');

/** Where widths are read in a record. Seconds on its clock; a moment left out is not there. */
export interface WidthMoments {
  ventedUntil: number;
  under: number | NotEvaluated;
  ventedAgainFrom: number | NotEvaluated;
}

/**
 * Width at one point of a record: the median with the line vented, what it was at the moment asked for, and the median with
 * the line vented again. The moment lies between two readings no further apart than `periods` of the channel's steps.
 */
export function widthPoint(
  readings: ChannelReadings,
  moments: WidthMoments,
  periods: number,
): WidthPoint | NotEvaluated {
  const { channel, time, values } = readings;
  const vented = Array.from(values.subarray(0, firstAt(time, moments.ventedUntil)));
  if (vented.length === 0)
    return notEvaluated(
      `${channel} has no reading with the line vented`,
      'widths are recorded from the vented start of the run on',
    );
  return {
    point: channel,
    before: median(vented),
    under: isNotEvaluated(moments.under) ? moments.under : at(readings, moments.under, periods),
    after: isNotEvaluated(moments.ventedAgainFrom)
      ? moments.ventedAgainFrom
      : medianFrom(readings, moments.ventedAgainFrom),
  };
}

/** Readings about a moment from which the usual step is taken. */
const AROUND = 50;

function at(readings: ChannelReadings, moment: number, periods: number): number | NotEvaluated {
  const index = firstAt(readings.time, moment);
  const near = (all: Float64Array) => all.subarray(Math.max(0, index - AROUND), index + AROUND);
  const around = { ...readings, time: near(readings.time), values: near(readings.values) };
  const value = onClock(around, Float64Array.of(moment), periods)[0] as number;
  return Number.isNaN(value)
    ? notEvaluated(`${readings.channel} has no reading near ${moment} s`, 'the width is recorded without gaps')
    : value;
}

function medianFrom({ channel, time, values }: ChannelReadings, from: number): number | NotEvaluated {
  const after = Array.from(values.subarray(firstAt(time, from)));
  return after.length === 0
    ? notEvaluated(`${channel} has no reading after the line was vented again`, 'the record runs on until then')
    : median(after);
}

type Change = 'growth' | 'set';

/** What the width characteristics are called, and what each takes of the points. */
export const WIDTH_CHARACTERISTICS: Record<string, { change: Change; of: 'largest' | 'mean' }> = {
  widthGrowth: { change: 'growth', of: 'largest' },
  meanWidthGrowth: { change: 'growth', of: 'mean' },
  permanentSet: { change: 'set', of: 'largest' },
  meanPermanentSet: { change: 'set', of: 'mean' },
};

/**
 * How much wider did the rim get, or stay?
 *
 *     growth = width(P) − width(0),   set = width(after) − width(0)
 *
 * at each point; the largest or the mean of three points or more. mm. Common practice, no source.
 */
export function widthChange(
  { change, of }: { change: Change; of: 'largest' | 'mean' },
  points: readonly (WidthPoint | NotEvaluated)[],
  read: { when: string; source: 'trace' | 'keyed' },
): Computed {
  const none = (value: NotEvaluated): Computed => ({ value, unit: 'mm', steps: [], source: read.source });
  if (points.length < FEWEST_POINTS)
    return none(
      notEvaluated(
        `widths were read at ${points.length} point${points.length === 1 ? '' : 's'}`,
        `they are read at ${FEWEST_POINTS} points or more, the same before, under pressure and after`,
      ),
    );
  const changes: { point: string; before: number; then: number; change: number }[] = [];
  for (const one of points) {
    if (isNotEvaluated(one)) return none(one);
    const then = change === 'growth' ? one.under : one.after;
    if (isNotEvaluated(then)) return none(then);
    changes.push({ point: one.point, before: one.before, then, change: then - one.before });
  }
  const [first] = changes as [(typeof changes)[number]];
  const largest = changes.reduce((most, one) => (one.change > most.change ? one : most), first);
  const value = of === 'largest' ? largest.change : changes.reduce((sum, one) => sum + one.change, 0) / changes.length;
  const ofPoint = (point: string) => (of === 'mean' ? 1 / changes.length : point === largest.point ? 1 : 0);
  return {
    value: { kind: 'exact', value },
    unit: 'mm',
    source: read.source,
    steps: [widthStep(change, of, changes, { value, largest: largest.point, when: read.when })],
    sensitivity: (channel) => (changes.some(({ point }) => point === channel) ? ofPoint(channel) : undefined),
  };
}

function widthStep(
  change: Change,
  of: 'largest' | 'mean',
  changes: readonly { point: string; before: number; then: number; change: number }[],
  { value, largest, when }: { value: number; largest: string; when: string },
): Step {
  const printed = (one: number) => printSignificant(one, 5);
  return {
    question: change === 'growth' ? 'How much wider was the rim under pressure?' : 'How much wider did the rim stay?',
    numbers: Object.fromEntries(
      changes.map((one) => [
        `${one.point}: before, then, change, mm`,
        [one.before, one.then, one.change].map(printed).join(', '),
      ]),
    ),
    answer: `${millimetres(value)}, ${of === 'largest' ? `at ${largest}, the largest` : 'the mean'} of ${changes.length} points, ${when}.`,
  };
}
