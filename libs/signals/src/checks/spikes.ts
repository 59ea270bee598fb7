import { type BurstParameters, isNotEvaluated } from '@breakbook/lab';
import type { BurstFeatures } from '../features/burst.js';
import { NOISE_MULTIPLE } from '../features/failure.js';
import { kPa, percent } from '../features/words.js';
import type { Finding } from './finding.js';

/** Are there single readings that no pressure can have made? Looked at up to the end of the loading. */
export function spikes(
  time: Float64Array,
  { raw, despiked, rawPeak, peak, zero, loadedTo }: BurstFeatures,
  { spikeShare }: BurstParameters,
  channel: string,
): Finding {
  const noise = isNotEvaluated(zero) ? 0 : zero.noise;
  const most = Math.max(spikeShare * peak.value, NOISE_MULTIPLE * noise);
  let [count, worst] = [0, 0];
  for (let i = 0; i <= loadedTo; i++) {
    const off = Math.abs((raw[i] as number) - (despiked[i] as number));
    if (off <= most) continue;
    count++;
    if (off > Math.abs((raw[worst] as number) - (despiked[worst] as number))) worst = i;
  }

  const named = { check: 'spikes', question: 'Are there readings that no pressure can have made?' };
  const peaks = `raw peak ${kPa(rawPeak.value)}, despiked ${kPa(peak.value)}`;
  if (count === 0)
    return {
      check: {
        ...named,
        outcome: 'pass',
        finding: `None differs from its neighbours by more than ${kPa(most)}; ${peaks}.`,
      },
    };
  const at = time[worst] as number;
  const off = (raw[worst] as number) - (despiked[worst] as number);
  return {
    check: {
      ...named,
      outcome: 'flag',
      finding: `${count === 1 ? 'One reading differs' : `${count} readings differ`} from the neighbours by more than ${percent(spikeShare)} of the peak; the largest by ${kPa(off)} at ${at} s; ${peaks}.`,
      action: 'Look at the place in the trace, and at the second sensor; check cable and earthing.',
      place: { channel, from: at, to: at },
    },
    signal: 'signal.spike',
  };
}
