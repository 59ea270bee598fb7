import { type BurstParameters, isNotEvaluated } from '@breakbook/lab';
import { valueIn } from '@breakbook/units';
import type { BurstFeatures } from '../features/burst.js';
import { runningMedian } from '../features/running-median.js';
import { ventedZero } from '../features/vented-zero.js';
import { kPa, percent } from '../features/words.js';
import type { Finding } from './finding.js';

/** Compared where the pressure is above this share of its peak: below it a share of the reading says little. */
const COMPARED_ABOVE = 0.5;

/** Do two sensors on one pressure agree? Each is taken from its own vented start. */
export function redundantSensors(
  time: Float64Array,
  { despiked, peak, loadedTo }: BurstFeatures,
  second: { channel: string; pressure: Float64Array },
  parameters: BurstParameters,
): Finding {
  const named = { check: 'redundant sensors', question: 'Do the two pressure sensors agree?' };
  const start = time[0] as number;
  const zero = ventedZero(time, second.pressure, start, start + valueIn(parameters.zeroTime, 's'));
  if (isNotEvaluated(zero))
    return {
      check: {
        ...named,
        outcome: 'not evaluated',
        finding: `No zero could be taken on the second sensor: ${zero.notEvaluated.because}.`,
        action: 'Start the record with the line vented, for as long as the method says.',
      },
    };

  const other = runningMedian(second.pressure, parameters.despikeSamples);
  let [worst, at] = [0, -1];
  for (let i = 0; i <= loadedTo; i++) {
    const [here, there] = [despiked[i] as number, (other[i] as number) - zero.zero];
    // Either of them counts: a sensor that reads nothing must not hide where the other reads much.
    const larger = Math.max(here, there);
    if (larger < COMPARED_ABOVE * peak.value) continue;
    const off = (there - here) / larger;
    if (at < 0 || Math.abs(off) > Math.abs(worst)) [worst, at] = [off, i];
  }
  const finding = `The second reads ${percent(Math.abs(worst))} ${worst < 0 ? 'lower' : 'higher'} than the first where they differ most, at ${kPa(despiked[at] as number)}; the method lets ${percent(parameters.redundantShare)} pass.`;
  if (Math.abs(worst) <= parameters.redundantShare) return { check: { ...named, outcome: 'pass', finding } };
  return {
    check: {
      ...named,
      outcome: 'flag',
      finding,
      action:
        'Find out which of the two is right before the result is used: an interim check against a reference tells.',
      place: { channel: second.channel, from: time[at] as number, to: time[at] as number },
    },
  };
}
