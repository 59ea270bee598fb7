import { type Calibration, type MethodChannel, Refusal, type Rig } from '@breakbook/lab';
import { converter, isDifference, QUANTITY_KINDS, sameDimension } from '@breakbook/units';
import type { SensorOnDay } from '../checks/calibration.js';
import type { ChannelRecord } from '../checks/channels/channel-record.js';
import type { ChannelUncertainty } from '../features/budget.js';
import type { CorrectionApplied } from '../features/correction-step.js';
import { openReadings } from '../features/open-circuit.js';
import { calibrationOn, placementOn } from './in-force.js';

/** A channel as it is judged, with what stands behind its numbers. */
export interface CorrectedChannel {
  channel: MethodChannel;
  /** Stored unit of the channel's kind. */
  unit: string;
  values: Float64Array;
  /** As the file wrote it. */
  record: ChannelRecord;
  /** 1 where a thermocouple was open: what stands there is no temperature. Undefined where it never was. */
  open?: Uint8Array;
  /** What sensor and amplifier can show, corrected like the readings. */
  fullScale?: number;
  uncertainty?: ChannelUncertainty;
  correction?: CorrectionApplied;
  sensor: SensorOnDay;
}

/**
 * Indicated values turned into what they mean, once: into the unit of the calibration in force, by its as-left relation
 * (true = gain · indicated + offset), into the stored unit of the channel's kind. Without a calibration in force the
 * values stand as indicated, and the check on it says so.
 */
export function correctedChannel(
  channel: MethodChannel,
  indicated: { values: Float64Array; unit: string },
  rig: Rig,
  calibrations: readonly Calibration[],
  day: string,
): CorrectedChannel {
  const unit = QUANTITY_KINDS[channel.kind].stored;
  const options = { difference: isDifference(channel.kind) };
  const placement = placementOn(rig, channel.channel, day);
  const calibration = placement && calibrationOn(calibrations, placement.sensor, day);
  if (placement) requireKind(channel, placement.fullScale.unit, `the full scale of sensor ${placement.sensor}`);
  if (calibration) requireKind(channel, calibration.unit, `calibration ${calibration.calibration}`);

  const correct = (from: string): ((value: number) => number) => {
    if (!calibration) return converter(from, unit, options);
    const { gain, offset } = calibration.asLeft;
    const [into, out] = [converter(from, calibration.unit, options), converter(calibration.unit, unit, options)];
    return (value) => out(gain * into(value) + offset);
  };
  const fullScale =
    placement && converter(placement.fullScale.unit, indicated.unit, options)(placement.fullScale.value);
  const open = channel.kind === 'temperature' ? openReadings(indicated.values, indicated.unit, fullScale) : undefined;
  return {
    channel,
    unit,
    values: indicated.values.map(correct(indicated.unit)),
    record: {
      channel: channel.channel,
      kind: channel.kind,
      unit: indicated.unit,
      indicated: indicated.values,
      fullScale,
    },
    ...(open ? { open } : {}),
    sensor: {
      channel: channel.channel,
      required: channel.required,
      day,
      ...(placement ? { sensor: placement.sensor } : {}),
      ...(calibration ? { calibration } : {}),
    },
    ...(placement ? { fullScale: correct(placement.fullScale.unit)(placement.fullScale.value) } : {}),
    ...(calibration
      ? {
          uncertainty: {
            u: converter(calibration.unit, unit, { difference: true })(calibration.expandedUncertainty) / calibration.k,
            unit,
            calibration: calibration.calibration,
          },
          correction: {
            calibration: calibration.calibration,
            certificate: calibration.certificate,
            sensor: calibration.sensor,
            unit: calibration.unit,
            ...calibration.asLeft,
          },
        }
      : {}),
  };
}

function requireKind(channel: MethodChannel, unit: string, what: string): void {
  if (sameDimension(unit, QUANTITY_KINDS[channel.kind].stored)) return;
  throw new Refusal({
    code: 'unit.wrong-dimension',
    channel: channel.channel,
    detail: `Channel ${channel.channel} measures ${channel.kind}, and ${what} is in "${unit}".`,
    found: unit,
    expected: `a unit of ${channel.kind}`,
    action: 'Correct the record of the sensor or of its calibration.',
  });
}
