import type { BurstMethod, Measurement, Quantity, Run } from '@breakbook/lab';
import type { QuantityKind } from '@breakbook/units';
import type { ChannelUncertainty } from './budget.js';
import type { BurstFeatures } from './burst.js';
import type { ChannelReadings } from './channel-on-clock.js';
import type { Computed } from './characteristic.js';
import type { CorrectionApplied } from './correction-step.js';

/** A number that a person read from an instrument, in the unit asked for. */
export interface KeyedReading {
  value: number;
  place: string | undefined;
  measurement: Measurement;
}

/** Everything the characteristics of a burst are worked out from. */
export interface BurstSource {
  time: Float64Array;
  features: BurstFeatures;
  method: BurstMethod;
  corrected: CorrectionApplied | undefined;
  calibrations: ReadonlyMap<string, ChannelUncertainty>;
  /** Usual step of the record, s. */
  period: number;
  /** Channels beside the rim pressure, each as it was read: volumes in mL/min, widths in mm. */
  beside: readonly ChannelReadings[];
  /** Every reading keyed under one name. */
  keyed: (of: string, wanted: { kind: QuantityKind; unit: string }) => KeyedReading[];
  conditions: Run['conditions'];
  markedMaximum?: Quantity;
}

/** A number read from the pressure record. */
export interface FromPressure extends Computed {
  /** Change of the value per kPa of the rim pressure; left out where it does not follow it in proportion. */
  perPressure?: number;
}
