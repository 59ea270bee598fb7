import type { HeatParameters } from '@breakbook/lab';
import { valueIn } from '@breakbook/units';
import { median } from 'simple-statistics';
import { findEnding } from './failure.js';
import { HEAT_CHANNELS, STEADY } from './heat.js';
import { brakedSpan, ranItsTime, type Stretch } from './heat-stretch.js';
import { runningMedian } from './running-median.js';
import { firstAt } from './vented-zero.js';
import { windowSamples } from './window-samples.js';

/** A place at which something may have failed. Which one it was, a person confirms. */
export interface FailureCandidate {
  by: 'tyre pressure' | 'brake force' | 'surface speed' | 'a person';
  channel: string;
  /** Last sample before it. */
  index: number;
  time: number;
  value: number;
}

/** How far a heat run went, as its records alone show it. */
export interface Survival {
  /** The stage it ended in. */
  stretch: Stretch;
  /** In the order of time. */
  candidates: FailureCandidate[];
  /** The first, where the tyre lost its pressure: then something failed. */
  failure: FailureCandidate | undefined;
  /** A sudden end of force or speed alone: a failure only where the examination finds one. */
  step: FailureCandidate | undefined;
  /** A person stated the failure. */
  stated: boolean;
}

/** A tyre that is let down so long after the last braking was let down. Seconds. Common practice, no source. */
const GRACE = 5;
/** A force or speed that loses this share at once, for good, and before the programme ends, was cut off. */
const STEP_SHARE = 0.5;
const NEAR_LEVEL = 0.9;
/** Time before the end of braking over which its level is taken. Seconds. */
const LEVEL_TIME = 5;
/** Samples of the median that keeps a spike of the tyre's pressure from looking like a fall. */
const DESPIKE = 5;

/**
 * Did something fail, and when? Looked for in the stage the run ended in: a fall of the tyre's pressure by the method's
 * share within its time, while the brake was on or at most 5 s after; and an end of brake force or surface speed within
 * the same time, from which they do not come back, before the stage had run its time. All are kept.
 *
 * Common practice, no source; shares and times of the pressure's fall are the method's. A sample that a person stated,
 * one of the candidates or another, is the failure in their place.
 */
export function survivalOf(
  stretches: readonly Stretch[],
  parameters: HeatParameters,
  stated?: (stretch: Stretch) => number | undefined,
): Survival {
  const stretch = stretches.at(-1);
  if (!stretch) throw new RangeError('survivalOf: needs at least one stage.');
  const fall = tyreFall(stretch, parameters);
  const { record } = stretch.features;
  const duration = stretch.programme && valueIn(stretch.programme.duration, 's');
  const window = valueIn(parameters.pressureFallTime, 's');
  const steps = ranItsTime(stretch, duration)
    ? []
    : [
        cutOff(stretch, record.force, window, { by: 'brake force', channel: HEAT_CHANNELS.force }),
        cutOff(stretch, record.speed, window, { by: 'surface speed', channel: HEAT_CHANNELS.speed }),
      ].filter((one) => one !== undefined);
  const candidates = [...(fall ? [fall] : []), ...steps].sort((a, b) => a.time - b.time);
  const index = stated?.(stretch);
  if (index !== undefined)
    return {
      stretch,
      candidates,
      failure: statedFailure(stretch, candidates, index),
      step: undefined,
      stated: true,
    };
  return {
    stretch,
    candidates,
    failure: fall ? candidates[0] : undefined,
    step: fall ? undefined : candidates[0],
    stated: false,
  };
}

/** The candidate at the stated sample; where none is there, that moment by the word of the person. */
function statedFailure(
  { features: { record } }: Stretch,
  candidates: readonly FailureCandidate[],
  index: number,
): FailureCandidate {
  const at = candidates.find((one) => one.index === index);
  if (at) return at;
  return {
    by: 'a person',
    channel: HEAT_CHANNELS.force,
    index,
    time: record.time[index] as number,
    value: record.force[index] as number,
  };
}

/** The fall of the tyre's pressure in one stage, where there is one. */
export function tyreFall(stretch: Stretch, parameters: HeatParameters): FailureCandidate | undefined {
  const { time, tyre } = stretch.features.record;
  const braked = brakedSpan(stretch);
  if (!tyre || !braked) return undefined;
  const end = stretch.last + 1;
  const pressure = runningMedian(tyre.subarray(stretch.from, end), DESPIKE);
  const ending = findEnding(time.subarray(stretch.from, end), pressure, {
    fall: parameters.pressureFall,
    window: valueIn(parameters.pressureFallTime, 's'),
    noise: 0,
  });
  if (ending.ending !== 'burst') return undefined;
  const index = stretch.from + ending.before;
  if ((time[index] as number) > (time[braked.last] as number) + GRACE) return undefined;
  return {
    by: 'tyre pressure',
    channel: HEAT_CHANNELS.tyre,
    index,
    time: time[index] as number,
    value: tyre[index] as number,
  };
}

function cutOff(
  stretch: Stretch,
  values: Float64Array,
  window: number,
  named: Pick<FailureCandidate, 'by' | 'channel'>,
): FailureCandidate | undefined {
  const braked = brakedSpan(stretch);
  const { time, steps } = stretch.features.record;
  if (!braked) return undefined;
  const until = (time[braked.last] as number) - window;
  const before = values.subarray(
    Math.max(braked.from, firstAt(time, until - LEVEL_TIME)),
    Math.max(braked.from, firstAt(time, until)),
  );
  if (before.length === 0) return undefined;
  const level = median(Array.from(before));

  const steady = runningMedian(values.subarray(stretch.from, stretch.last + 1), windowSamples(STEADY, steps.period));
  let held = steady.length - 1;
  while (held >= 0 && (steady[held] as number) < NEAR_LEVEL * level) held--;
  const lost = steady.findIndex((value, i) => i > held && value < STEP_SHARE * level);
  if (held < 0 || lost < 0) return undefined;
  const index = stretch.from + held;
  const took = (time[stretch.from + lost] as number) - (time[index] as number);
  // One step more: between two samples it may have begun late and ended early.
  if (took > window + steps.period) return undefined;
  return { ...named, index, time: time[index] as number, value: values[index] as number };
}
