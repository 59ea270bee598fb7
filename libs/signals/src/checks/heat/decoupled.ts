import { NO_TEMPERATURE, type TrackSensor } from '../../features/heat.js';
import { over, type Stretch } from '../../features/heat-stretch.js';
import type { Span } from '../../features/time-above.js';

/** A fall smaller than this, K, or than this share of the warming before it, may be the brake's or the air's. */
const LEAST_FALL = 10;
const LEAST_SHARE = 0.15;
/** The power, or the air stream, changed by this share explains a fall. */
const CHANGED = 0.05;
/** Either side of the fall must last so long, s, for its mean to say anything. */
const LASTING = 5;

/** A fall of a track temperature that neither the brake nor the air explains. */
export interface Decoupling {
  fall: number;
  /** Samples from which and to which it fell. */
  from: number;
  to: number;
}

/**
 * Did this sensor let go of the power? While the brake stays on at the same power, a track warms or keeps its temperature. One
 * that falls by 10 K and by 15 % of its warming, while neither the mean power fell nor the mean air speed rose by 5 %, has
 * lost the track. Undefined where none did.
 *
 * Common practice, no source.
 */
export function decoupledIn(stretch: Stretch, { filtered }: TrackSensor, span: Span): Decoupling | undefined {
  const { braking } = stretch.features;
  const cold = filtered[stretch.from] as number;
  let begins: number | undefined;
  let hottest = span.from;
  for (let i = span.from; i <= span.last; i++) {
    const value = filtered[i] as number;
    if (!braking[i] || value <= NO_TEMPERATURE) {
      begins = undefined;
      continue;
    }
    if (begins === undefined) [begins, hottest] = [i, i];
    const most = filtered[hottest] as number;
    if (value >= most) hottest = i;
    else if (
      most - value > Math.max(LEAST_FALL, LEAST_SHARE * (most - cold)) &&
      unexplained(stretch, { from: begins, last: hottest }, { from: hottest, last: i })
    )
      return { fall: most - value, from: hottest, to: i };
  }
  return undefined;
}

function unexplained(stretch: Stretch, before: Span, after: Span): boolean {
  const { energy, record } = stretch.features;
  const lasted = ({ from, last }: Span) => (record.time[last] as number) - (record.time[from] as number);
  if (lasted(before) < LASTING || lasted(after) < LASTING) return false;
  const power = (span: Span) => over(energy, span) / lasted(span);
  if (power(after) < (1 - CHANGED) * power(before)) return false;
  const { air } = record;
  if (!air) return true;
  const speed = ({ from, last }: Span) =>
    air.subarray(from, last + 1).reduce((sum, one) => sum + one, 0) / (last + 1 - from);
  return speed(after) <= (1 + CHANGED) * speed(before);
}
