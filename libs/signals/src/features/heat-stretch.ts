import type { HeatStage } from '@breakbook/lab';
import type { HeatFeatures } from './heat.js';
import type { Span } from './time-above.js';

/** One stage of a heat run, as a stretch of the record that holds it; both ends are counted in. */
export interface Stretch extends Span {
  features: HeatFeatures;
  file: string;
  passage: number | undefined;
  title: string;
  /** What the method asks of this stage; undefined where it is not known which stage it is. */
  programme: HeatStage | undefined;
}

/** Growth of a running sum over a stretch, up to a sample of it. */
export function over(sum: Float64Array, { from, last }: Span, to = last): number {
  return (sum[to] as number) - (sum[from] as number);
}

/** First and last sample with the brake on; undefined where it never was. */
export function brakedSpan({ features, from, last }: Stretch): Span | undefined {
  const { braking } = features;
  let first = from;
  while (first <= last && !braking[first]) first++;
  let end = last;
  while (end >= first && !braking[end]) end--;
  return first > end ? undefined : { from: first, last: end };
}

/** The stage that took the most energy. */
export function mainStretch(stretches: readonly Stretch[]): Stretch {
  return stretches.reduce((most, one) =>
    over(one.features.energy, one) > over(most.features.energy, most) ? one : most,
  );
}

/** Gaps longer than the method lets be bridged; one before the first sample of a record too. */
export function gapsIn({ features, from, last }: Stretch, to = last) {
  return features.record.steps.gaps.filter(
    ({ after }) => (after > from || after === 0) && after >= from && after <= to,
  );
}

/** Share of a stage's programmed time after which it counts as run to its end. Common practice, no source. */
const WHOLE = 0.98;

/** Did braking last as long as the programme of the stage asks? Undefined where that is not known. */
export function ranItsTime(stretch: Stretch, duration: number | undefined): boolean | undefined {
  if (duration === undefined) return undefined;
  const span = brakedSpan(stretch);
  if (!span) return false;
  const { time } = stretch.features.record;
  return (time[span.last] as number) - (time[span.from] as number) >= WHOLE * duration;
}
