import { type BurstParameters, isNotEvaluated, type LossOfPressure, type NotEvaluated } from '@breakbook/lab';
import { valueIn } from '@breakbook/units';
import type { TimeSteps } from '../files/time-steps.js';
import { type Ending, findEnding, indexOfLargest, lossIn, NOISE_MULTIPLE, statedEnding } from './failure.js';
import { type FlatTop, findFlatTop } from './flat-top.js';
import { type HoldFound, longestStay } from './holds.js';
import { type Ramp, rampOf } from './ramp.js';
import { runningMedian } from './running-median.js';
import { firstAt, type VentedZero, ventedZero } from './vented-zero.js';

/** A rim pressure record: corrected by the calibration, in kPa, zero not yet taken off. */
export interface PressureRecord {
  time: Float64Array;
  pressure: Float64Array;
  steps: TimeSteps;
  /** What the sensor and amplifier can show, corrected like the readings; left out where it is not known. */
  fullScale?: number;
}

/** What a burst record shows, in kPa and seconds. It knows no limit. */
export interface BurstFeatures {
  zero: VentedZero | NotEvaluated;
  /** Pressure above the vented start: as recorded, and despiked. */
  raw: Float64Array;
  despiked: Float64Array;
  rawPeak: { index: number; value: number };
  /** Largest despiked pressure before the failure; of the whole record where there is none. */
  peak: { index: number; value: number };
  ending: Ending;
  /** Last sample of the loading: just before the failure, or the peak. */
  loadedTo: number;
  /** Did the pressure rise above what noise could make? Where not, nothing below says anything. */
  pressurised: boolean;
  flatTop: FlatTop | undefined;
  /** A gap that touches the peak or the fall: what was reached in it is not known. */
  gapAtPeak: TimeSteps['gaps'][number] | undefined;
  /** First gap before the end of the loading. */
  gapBefore: TimeSteps['gaps'][number] | undefined;
  ramp: Ramp | NotEvaluated;
  /** Per programmed hold, in the method's order. */
  holds: { name: string; asked: number; band: { low: number; high: number }; found: HoldFound | undefined }[];
}

/**
 * Reads a burst record by the method's parameters. The record has at least two samples. A failure that a person stated
 * stands in place of the one looked for.
 */
export function burstFeatures(
  record: PressureRecord,
  parameters: BurstParameters,
  stated?: { fallen: number; loss: LossOfPressure },
): BurstFeatures {
  const { time, steps } = record;
  const start = time[0] as number;
  const zero = ventedZero(time, record.pressure, start, start + valueIn(parameters.zeroTime, 's'));
  const { zero: offset, noise } = isNotEvaluated(zero) ? { zero: 0, noise: 0 } : zero;
  const raw = record.pressure.map((value) => value - offset);
  const despiked = runningMedian(raw, parameters.despikeSamples);

  const window = valueIn(parameters.failureWindow, 's');
  const ending = stated
    ? statedEnding(time, despiked, stated, window)
    : findEnding(time, despiked, { fall: parameters.failureFall, window, noise });
  const loss = lossIn(ending);
  const end = loss ? loss.fallen : time.length;
  const peakIndex = indexOfLargest(despiked, end);
  const peak = { index: peakIndex, value: despiked[peakIndex] as number };
  const rawIndex = indexOfLargest(raw, end);
  const holds = parameters.holds.map((hold) => {
    const target = valueIn(hold.pressure, 'kPa');
    const band = { low: target * (1 - hold.below), high: target * (1 + hold.above) };
    return { name: hold.name, asked: valueIn(hold.duration, 's'), band, found: longestStay(time, despiked, band) };
  });
  const ramp = rampOf(
    time,
    despiked,
    peak.value,
    holds.flatMap(({ found }) => (found ? [found] : [])),
    parameters.rampBy,
  );

  return {
    zero,
    raw,
    despiked,
    rawPeak: { index: rawIndex, value: raw[rawIndex] as number },
    peak,
    ending,
    pressurised: peak.value > NOISE_MULTIPLE * noise,
    loadedTo: loss ? loss.before : peakIndex,
    flatTop: findFlatTop(
      time,
      raw,
      peak.value,
      { from: isNotEvaluated(ramp) ? 0 : firstAt(time, ramp.t10), to: end },
      record.fullScale === undefined ? undefined : record.fullScale - offset,
    ),
    gapAtPeak: gapNear(steps, peakIndex, loss ? loss.fallen : peakIndex + 1),
    gapBefore: gapNear(steps, 0, loss ? loss.before : peakIndex),
    ramp,
    holds,
  };
}

/** The gap next to a stretch of samples, or inside it. */
function gapNear(steps: TimeSteps, first: number, last: number) {
  return steps.gaps.find(({ after }) => after >= first && after <= last);
}
