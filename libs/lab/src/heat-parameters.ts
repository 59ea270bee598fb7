import { z } from 'zod';
import { quantityOf } from './quantity.js';
import { Fraction, Line } from './text.js';

/** How the brake was driven. Results under different modes are not comparable. */
export const ControlMode = z.enum(['constant force', 'constant power', 'constant lever weight']);
export type ControlMode = z.infer<typeof ControlMode>;

/** Where the resin under the track softens, and who says so. */
export const GlassTransition = z.strictObject({
  dry: quantityOf('temperature'),
  /** After moisture was taken up; only where somebody measured or states it. */
  wet: quantityOf('temperature').optional(),
  /** The data sheet or report it is taken from. */
  source: Line,
});
export type GlassTransition = z.infer<typeof GlassTransition>;

/** A stage of a heat run: so much power for so long, at a set speed and air speed. */
export const HeatStage = z.strictObject({
  name: Line,
  power: quantityOf('power'),
  duration: quantityOf('time'),
  speed: quantityOf('speed'),
  airSpeed: quantityOf('speed'),
});
export type HeatStage = z.infer<typeof HeatStage>;

/** How a brake-heat trace is read. Shares are fractions of the value they belong to. */
export const HeatParameters = z.strictObject({
  control: ControlMode,
  /** In the order they are run: passage 1 of a run is the first. */
  stages: z.array(HeatStage).min(1),
  /** Below this power the brake counts as off. */
  offPower: quantityOf('power'),
  /** Band about the stage's power, and the share of braking time that must lie in it. */
  powerBand: Fraction,
  powerShareInBand: Fraction,
  speedBand: Fraction,
  airSpeedBand: Fraction,
  /** Interruptions the method permits within a stage. */
  interruptions: z.strictObject({ most: z.number().int().min(0), longest: quantityOf('time') }),
  /** Energy is not interpolated over a longer gap. */
  longestGap: quantityOf('time'),
  /** Window of the running median over a temperature. */
  temperatureWindow: quantityOf('time'),
  /** Temperatures above which the time is summed: 120 Cel gives the characteristic `timeAbove120`. */
  thresholds: z.array(quantityOf('temperature')),
  /** A fall of the tyre pressure by this share within this time is a failure. */
  pressureFall: Fraction,
  pressureFallTime: quantityOf('time'),
  /** Of the air in the room, during the run. */
  room: z.strictObject({ from: quantityOf('temperature'), to: quantityOf('temperature') }),
  /** The track must be no warmer than this when the first stage begins. */
  startAtMost: quantityOf('temperature'),
  /** Two track sensors may differ by this much for this long. */
  trackDifference: z.strictObject({ most: quantityOf('temperature difference'), longest: quantityOf('time') }),
  /** A faster change, in kelvin a second, means that the sensor came off. */
  detachedRate: z.number().positive(),
  /** Pressure of the tyre at the start, with its band. */
  tyrePressure: z.strictObject({ at: quantityOf('pressure'), band: Fraction }),
  /** The track is steady where over so long a time it changes by at most so many kelvin a minute, and the power keeps its band. */
  steadyState: z.strictObject({ window: quantityOf('time'), slopeAtMost: z.number().positive() }).optional(),
  /** An infrared reading of the track may differ from contact by this much for this long. */
  infraredDifference: z
    .strictObject({ most: quantityOf('temperature difference'), longest: quantityOf('time') })
    .optional(),
  /** What must be recorded beside the trace: as conditions "pads", "pads after", "tyre" or "tube", and the mass of the pads keyed. */
  recorded: z.array(z.enum(['pads', 'pad mass', 'pads after', 'tube'])).optional(),
  /** For products that state none of their own. */
  glassTransition: GlassTransition.optional(),
});
export type HeatParameters = z.infer<typeof HeatParameters>;
