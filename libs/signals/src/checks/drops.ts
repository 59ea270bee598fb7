import { isNotEvaluated } from '@breakbook/lab';
import type { BurstFeatures } from '../features/burst.js';
import { NOISE_MULTIPLE } from '../features/failure.js';
import { kPa, percent } from '../features/words.js';
import type { Finding } from './finding.js';

/** Common practice, no source: a drop on the way up by more than this share is looked at. */
const DROP_SHARE = 0.01;
/** A sensor that reads almost nothing in the middle of the loading was cut off. */
const DROPOUT_SHARE = 0.9;
const ARMED_SHARE = 0.1;

/** Did the pressure drop on its way up, before anything let go? */
export function drops(time: Float64Array, { despiked, peak, zero, loadedTo }: BurstFeatures, channel: string): Finding {
  const noise = isNotEvaluated(zero) ? 0 : zero.noise;
  let [top, worstTop, worstAt, worst] = [0, 0, 0, 0];
  for (let i = 0; i <= loadedTo; i++) {
    const value = despiked[i] as number;
    if (value > (despiked[top] as number)) top = i;
    const largest = despiked[top] as number;
    if (largest < ARMED_SHARE * peak.value || largest - value <= NOISE_MULTIPLE * noise) continue;
    const share = (largest - value) / largest;
    if (share > worst) [worst, worstTop, worstAt] = [share, top, i];
  }

  const named = { check: 'drops', question: 'Did the pressure drop on its way up?' };
  if (worst <= DROP_SHARE)
    return {
      check: {
        ...named,
        outcome: 'pass',
        finding: `Never by more than ${percent(DROP_SHARE)} of what it had reached.`,
      },
    };
  const [from, to] = [time[worstTop] as number, time[worstAt] as number];
  const out = worst > DROPOUT_SHARE;
  return {
    check: {
      ...named,
      outcome: 'flag',
      finding: `It fell by ${percent(worst)}, from ${kPa(despiked[worstTop] as number)} at ${from} s to ${kPa(despiked[worstAt] as number)} at ${to} s, and rose again.`,
      action: out
        ? 'Check cable and plug of the sensor: a reading near nothing in the middle of a run is no pressure.'
        : 'Look and listen in the video: something may have given way, leaked or slipped before the end.',
      place: { channel, from, to },
    },
    ...(out ? { signal: 'signal.dropout' as const } : {}),
  };
}
