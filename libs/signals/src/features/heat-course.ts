import { type NotEvaluated, notEvaluated } from '@breakbook/lab';
import { valueIn } from '@breakbook/units';
import type { Computed } from './characteristic.js';
import { type HeatSource, whyIncomplete } from './heat-source.js';
import { brakedSpan, over, type Stretch } from './heat-stretch.js';
import { percent, seconds } from './words.js';

/** A time with the brake off, between two with it on; from the last sample before it to the first after. */
export interface Interruption {
  from: number;
  to: number;
}

/** When was the brake let go on the way? */
export function interruptionsOf(stretch: Stretch): Interruption[] {
  const { braking, record } = stretch.features;
  const span = brakedSpan(stretch);
  const found: Interruption[] = [];
  if (span)
    for (let i = span.from + 1; i <= span.last; i++)
      if (!braking[i]) {
        const from = record.time[i - 1] as number;
        while (!braking[i]) i++;
        found.push({ from, to: record.time[i] as number });
      }
  return found;
}

const NEVER_BRAKED = notEvaluated('the brake was never on', 'a record that holds the braking of this specimen is read');
const STAGES_UNKNOWN = notEvaluated(
  'the run names no stages, so it is not known what was asked when',
  'the run names its stages as passages, each with its number and start',
);

/** Why the course of the braking cannot be held against a programme. */
function whyNoCourse({ stretches }: HeatSource): NotEvaluated | undefined {
  if (stretches.some(({ programme }) => programme === undefined)) return STAGES_UNKNOWN;
  return stretches.every((one) => brakedSpan(one) === undefined) ? NEVER_BRAKED : undefined;
}

/** Braking time of one stage with its power in the band about what the stage asks, s. Steps in gaps count nothing. */
function timeInBand({ features, from, last, programme }: Stretch, band: number): number {
  const { steadyPower, braking, longestGap, record } = features;
  const target = programme ? valueIn(programme.power, 'W') : 0;
  const inside = (i: number) => (braking[i] && Math.abs((steadyPower[i] as number) - target) <= band * target ? 1 : 0);
  let sum = 0;
  for (let i = from + 1; i <= last; i++) {
    const step = (record.time[i] as number) - (record.time[i - 1] as number);
    if (step <= longestGap) sum += (step * (inside(i) + inside(i - 1))) / 2;
  }
  return sum;
}

/**
 * How steadily was it braked? The share of the braking time, over all stages, in which the power, by its running median of
 * a second, lay within the method's band about what the stage asks.
 *
 * Common practice, no source; the band is the method's.
 */
export function powerStability(source: HeatSource): Computed {
  const { control, powerBand } = source.method.parameters;
  const none =
    control === 'constant lever weight'
      ? notEvaluated(
          'with a constant lever weight the pads decide the power, and the method asks for none',
          'the brake is driven at constant power or constant force',
        )
      : whyNoCourse(source);
  if (none) return { value: none, unit: '1', steps: [] };
  const inBand = source.stretches.reduce((sum, one) => sum + timeInBand(one, powerBand), 0);
  const braked = source.stretches.reduce((sum, one) => sum + over(one.features.on.time, one), 0);
  return {
    value: { kind: 'exact', value: inBand / braked },
    unit: '1',
    steps: [
      {
        question: 'How steadily was it braked?',
        numbers: { 'time in band, s': inBand, 'time on, s': braked, 'band, share of the power asked': powerBand },
        answer: `For ${percent(inBand / braked)} of the braking time the power lay within ${percent(powerBand)} of what the stage asks.`,
      },
    ],
  };
}

/** How often was the brake let go on the way, over all stages? Cooling between stages is none. */
export function interruptions(source: HeatSource): Computed {
  return ofInterruptions(source, '1', (found) => found.length);
}

/** How long was the longest interruption, s? 0 where there was none; its ends lie between two samples each. */
export function longestInterruption(source: HeatSource): Computed {
  return ofInterruptions(source, 's', (found) => found.reduce((most, { from, to }) => Math.max(most, to - from), 0));
}

function ofInterruptions(source: HeatSource, unit: string, value: (found: Interruption[]) => number): Computed {
  const none = whyNoCourse(source);
  if (none) return { value: none, unit, steps: [] };
  const found = source.stretches.flatMap(interruptionsOf);
  const reasons = whyIncomplete(source);
  const longest = found.reduce((most, { from, to }) => Math.max(most, to - from), 0);
  return {
    // Within a gap the brake may have been let go as well.
    value: { kind: reasons.length > 0 ? 'atLeast' : 'exact', value: value(found) },
    unit,
    steps: [
      {
        question: 'Was the brake let go on the way?',
        numbers: { interruptions: found.length, 'longest, s': longest },
        answer: `${found.length === 0 ? 'No.' : `Yes, ${found.length === 1 ? 'once' : `${found.length} times`}, for ${seconds(longest)} at most.`}${reasons.length > 0 ? ` It is at least this: ${reasons.join('; ')}.` : ''}`,
      },
    ],
  };
}
