import { z } from 'zod';
import { ChannelName } from './methods.js';
import { Quantity, UnitCode } from './quantity.js';
import { Day, Key, Line, Paragraph } from './text.js';

/** Where a sensor sits from a day on: the channel it feeds and the indicated range the file can show. */
export const SensorPlacement = z.strictObject({
  channel: ChannelName,
  sensor: Key,
  from: Day,
  to: Day.optional(),
  /** Full scale of sensor and amplifier together, in the channel's indicated unit. */
  fullScale: Quantity,
});
export type SensorPlacement = z.infer<typeof SensorPlacement>;

export const Sensor = z.strictObject({ sensor: Key, description: Line, serial: Line });
export type Sensor = z.infer<typeof Sensor>;

export const Rig = z.strictObject({
  rig: Key,
  name: Line,
  location: Line,
  placements: z.array(SensorPlacement).min(1),
  /** Highest value the rig reaches before it stops by itself. */
  rigLimit: Quantity.optional(),
});
export type Rig = z.infer<typeof Rig>;

/** true value = gain · indicated + offset, in `unit`. */
export const LinearRelation = z.strictObject({ gain: z.number().positive(), offset: z.number() });

/**
 * A calibration event: the only home of corrections. The as-left relation corrects later runs; the as-found relation
 * says how far earlier runs may have been off.
 */
export const Calibration = z.strictObject({
  calibration: Key,
  sensor: Key,
  date: Day,
  due: Day,
  unit: UnitCode,
  asFound: LinearRelation,
  asLeft: LinearRelation,
  expandedUncertainty: z.number().positive(),
  k: z.number().positive(),
  /** As-found error up to which earlier results stand. */
  tolerance: z.number().positive(),
  certificate: Line,
  traceableTo: Paragraph,
  by: Line,
});
export type Calibration = z.infer<typeof Calibration>;
