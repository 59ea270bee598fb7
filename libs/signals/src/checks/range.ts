import type { BurstParameters } from '@breakbook/lab';
import type { BurstFeatures } from '../features/burst.js';
import { kPa, percent } from '../features/words.js';
import type { Finding } from './finding.js';

/** Outside these shares of full scale the unit or the scale of the column is in doubt, more than the run. */
const IMPLAUSIBLE = { below: 0.01, above: 1.1 };
/** A pressure further below the room's than a vacuum can be. kPa, gauge, with room for the barometer. */
const BELOW_VACUUM = -110;

/** Did the peak stay within the part of the range that the method lets be used? */
export function rangeUsed(
  time: Float64Array,
  { peak, despiked }: BurstFeatures,
  parameters: BurstParameters,
  fullScale: number | undefined,
  channel: string,
): Finding {
  const named = { check: 'range used', question: 'Did the peak stay well within the range of the sensor?' };
  const at = time[peak.index] as number;
  const place = { channel, from: at, to: at };
  if (fullScale === undefined)
    return {
      check: {
        ...named,
        outcome: 'not evaluated',
        finding: 'The full scale of the sensor is not known for this day.',
        action: 'Enter where the sensor was placed, with its full scale.',
      },
    };

  const lowest = despiked.findIndex((value) => value < BELOW_VACUUM);
  if (lowest >= 0)
    return {
      check: {
        ...named,
        outcome: 'flag',
        finding: `The reading goes down to ${kPa(despiked[lowest] as number)}, below any vacuum.`,
        action: 'Check the sensor, its wiring and the unit of the column.',
        place: { channel, from: time[lowest] as number, to: time[lowest] as number },
      },
      signal: 'signal.negative-pressure',
    };

  const share = peak.value / fullScale;
  const finding = `The peak of ${kPa(peak.value)} uses ${percent(share)} of the full scale of ${kPa(fullScale)}`;
  if (share < IMPLAUSIBLE.below || share > IMPLAUSIBLE.above)
    return {
      check: {
        ...named,
        outcome: 'flag',
        finding: `${finding}, which does not look like a reading of this sensor.`,
        action: 'Check the unit in the header of the file and the scale of the amplifier.',
        place,
      },
      signal: 'signal.out-of-range',
    };
  if (share > parameters.rangeShare)
    return {
      check: {
        ...named,
        outcome: 'flag',
        finding: `${finding}; the method lets ${percent(parameters.rangeShare)} be used.`,
        action: 'Use a sensor of a larger range for parts as strong as this.',
        place,
      },
    };
  return {
    check: {
      ...named,
      outcome: 'pass',
      finding: `${finding}; the method lets ${percent(parameters.rangeShare)} be used.`,
    },
  };
}

/** Is the top of the record cut off? */
export function clipping({ flatTop }: BurstFeatures, channel: string): Finding {
  const named = { check: 'clipping', question: 'Is the top of the record whole?' };
  if (!flatTop)
    return {
      check: { ...named, outcome: 'pass', finding: 'The readings at the top go on changing as they do below it.' },
    };
  return {
    check: {
      ...named,
      outcome: 'flag',
      finding: `${flatTop.samples} readings in a row stand at ${kPa(flatTop.value)}, ${flatTop.at}: the pressure is at least this.`,
      action: 'Use a sensor or amplifier range that the pressure does not reach.',
      place: { channel, from: flatTop.from, to: flatTop.to },
    },
    signal: 'signal.saturated',
  };
}
