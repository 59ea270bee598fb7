import { z } from 'zod';
import { HeatParameters } from './heat-parameters.js';
import { ImpactParameters } from './impact-parameters.js';
import { LossOfPressure } from './moved-instants.js';
import { AskedPhotos } from './photos.js';
import { QuantityKindName, quantityOf, UnitCode } from './quantity.js';
import { Day, Fraction, Key, Line, Paragraph, Revision } from './text.js';

export const TestKind = z.enum(['burst', 'heat', 'impact', 'table']);
export type TestKind = z.infer<typeof TestKind>;

export const ChannelName = z.string().regex(/^[a-z][A-Za-z0-9]{0,39}$/, {
  error: 'must be a name in camel case, such as rimPressure',
});

/** A channel the method wants: what it measures and how fast it must be sampled. */
export const MethodChannel = z.strictObject({
  channel: ChannelName,
  kind: QuantityKindName,
  required: z.boolean(),
  /** Pressures are gauge or absolute; every other kind leaves this out. */
  reference: z.enum(['gauge', 'absolute']).optional(),
  minimumRate: quantityOf('frequency').optional(),
});
export type MethodChannel = z.infer<typeof MethodChannel>;

/** Part of an uncertainty budget (GUM, JCGM 100:2008, 4.3): how wide, and shaped how. */
export const UncertaintyComponent = z.discriminatedUnion('from', [
  /** Taken from the calibration in force: U / k of the sensor that measured. */
  z.strictObject({ from: z.literal('calibration'), name: Line, channel: ChannelName }),
  /** A half width in the characteristic's unit. */
  z.strictObject({
    from: z.literal('half width'),
    name: Line,
    halfWidth: z.number().positive(),
    unit: UnitCode,
    distribution: z.enum(['rectangular', 'triangular', 'u-shaped']),
  }),
  /** A half width as a fraction of the value. */
  z.strictObject({
    from: z.literal('relative half width'),
    name: Line,
    halfWidth: Fraction,
    distribution: z.enum(['rectangular', 'triangular', 'u-shaped']),
  }),
  /** A standard uncertainty in the characteristic's unit. */
  z.strictObject({ from: z.literal('standard'), name: Line, u: z.number().positive(), unit: UnitCode }),
]);
export type UncertaintyComponent = z.infer<typeof UncertaintyComponent>;

/**
 * How uncertain a characteristic is: the parts of its error, and either a fixed factor `k`, or the probability `coverage` that
 * the interval is to have. A fixed k = 2 covers about 95 % only where no bounded part outweighs the others; by `coverage` the
 * factor is taken from the distributions of the parts (JCGM 101:2008).
 */
export const UncertaintyBudget = z
  .strictObject({
    k: z.number().positive().optional(),
    coverage: Fraction.optional(),
    components: z.array(UncertaintyComponent).min(1),
    /** Parts that err together, by their names (GUM, 5.2.2); parts that are not named are independent. */
    correlations: z.array(z.strictObject({ between: z.tuple([Line, Line]), r: z.number().min(-1).max(1) })).optional(),
  })
  .superRefine(({ k, coverage, components, correlations }, context) => {
    if ((k === undefined) === (coverage === undefined))
      context.addIssue({ code: 'custom', path: ['k'], message: 'either k or coverage must be given, and not both' });
    const times = (name: string) => components.filter((one) => one.name === name).length;
    for (const [index, { between }] of (correlations ?? []).entries())
      if (between[0] === between[1] || between.some((name) => times(name) !== 1))
        context.addIssue({
          code: 'custom',
          path: ['correlations', index, 'between'],
          message: 'must name two components, each of which stands once in the budget',
        });
  });
export type UncertaintyBudget = z.infer<typeof UncertaintyBudget>;

export const MethodCharacteristic = z.strictObject({
  characteristic: ChannelName,
  title: Line,
  kind: QuantityKindName,
  unit: UnitCode,
  reference: z.enum(['gauge', 'absolute']).optional(),
  /** What is computed, in one sentence with its formula. */
  definition: Paragraph,
  /** Left out where no uncertainty is stated; a guarded rule on it is then "not evaluated". */
  uncertainty: UncertaintyBudget.optional(),
});
export type MethodCharacteristic = z.infer<typeof MethodCharacteristic>;

export const FailureModeCode = z.string().regex(/^[A-Z]{2}-[A-Z]{2,5}$/);

/**
 * A failure mode under the lab's own code, and what it counts as for each characteristic:
 * `failure` (the value is where the part broke), `at least` (something else gave way first, so a sound part holds
 * at least the value), `none` (says nothing about this characteristic).
 */
export const FailureMode = z.strictObject({
  code: FailureModeCode,
  meaning: Line,
  countsAs: z.record(ChannelName, z.enum(['failure', 'at least', 'none'])),
  /** How the pressure is lost where this came first. A fall of pressure alone does not tell a rim from a tyre. */
  loss: LossOfPressure.optional(),
  /** Photos that an examination naming it must have, before the validity of the run is decided. */
  photos: z
    .array(AskedPhotos)
    .min(1)
    .max(10)
    .refine((asked) => new Set(asked.map(({ of }) => of)).size === asked.length, {
      error: 'each thing is asked for once, with how many photos of it',
    })
    .optional(),
});
export type FailureMode = z.infer<typeof FailureMode>;

/** A programmed hold: the pressure must stay in its band for the time asked. */
export const Hold = z.strictObject({
  name: Line,
  pressure: quantityOf('pressure'),
  below: z.number().min(0).max(0.5),
  above: z.number().min(0).max(0.5),
  duration: quantityOf('time'),
});

/** What presses on the part: liquids store little energy, gases much. */
export const BurstMedium = z.enum(['water', 'oil', 'air', 'nitrogen']);
export type BurstMedium = z.infer<typeof BurstMedium>;

/** How a burst-pressure trace is read. Shares are fractions of the value they belong to. */
export const BurstParameters = z.strictObject({
  /** Length of the median filter that removes single spikes; odd. */
  despikeSamples: z
    .number()
    .int()
    .min(1)
    .max(15)
    .refine((n) => n % 2 === 1, { error: 'must be odd' }),
  /** Raw and despiked peak may differ by this share before the run is flagged. */
  spikeShare: Fraction,
  /** A fall by this share of the running maximum within `failureWindow` is a failure. */
  failureFall: Fraction,
  failureWindow: quantityOf('time'),
  rampRate: z.strictObject({ from: quantityOf('pressure rate'), to: quantityOf('pressure rate') }),
  /** Share of the ramp's time that must lie inside the band. */
  rampShareInBand: Fraction,
  /** Largest difference between the zero before and after, as a share of full scale. */
  zeroDriftShare: Fraction,
  /** Length of vented record at the start from which the zero is taken. */
  zeroTime: quantityOf('time'),
  /** Largest share of full scale the peak may use. */
  rangeShare: Fraction,
  /** A gap longer than this many sample periods is flagged. */
  gapPeriods: z.number().min(1),
  /** Two sensors on one pressure may differ by this share. */
  redundantShare: Fraction,
  holds: z.array(Hold),
  /** How the ramp rate is read; left out, by the parts between holds where the pressure was held on its way. */
  rampBy: z.enum(['crossings', 'parts']).optional(),
  /** What fills the part, where the method fixes it; else the run says so as its condition "medium". */
  medium: BurstMedium.optional(),
  /** Volume filled, and absolute pressure of the room, where the method fixes them; else they are keyed. */
  filledVolume: quantityOf('volume').optional(),
  roomPressure: quantityOf('pressure').optional(),
  /** The growth of the rim's width is read where the pressure first reaches this; left out, at the end of the loading. */
  widthAt: quantityOf('pressure').optional(),
  /** The straight line of a compliance runs between these shares of the peak; a knee is a departure by `departure` of it. */
  compliance: z
    .strictObject({ from: Fraction, to: Fraction, departure: Fraction })
    .refine(({ from, to }) => from < to, { error: 'must begin below where it ends', path: ['to'] })
    .optional(),
  /** Of the room and of the medium, during the run. */
  temperature: z.strictObject({ from: quantityOf('temperature'), to: quantityOf('temperature') }).optional(),
  /** A part bled of air raises its pressure at least so fast with the volume pumped, between two shares of the peak. */
  airBleed: z
    .strictObject({ least: quantityOf('pressure per volume'), from: Fraction, to: Fraction })
    .refine(({ from, to }) => from < to, { error: 'must begin below where it ends', path: ['to'] })
    .optional(),
  /**
   * A fall is proposed as that of a tyre which left the rim where no more than `rest` of the peak is left `within` so long,
   * and every width recorded is back within `width`; a person confirms it. Left out, nothing is proposed.
   */
  tyreOff: z.strictObject({ rest: Fraction, within: quantityOf('time'), width: quantityOf('length') }).optional(),
});
export type BurstParameters = z.infer<typeof BurstParameters>;

const common = {
  method: Key,
  revision: Revision,
  title: Line,
  /** The document the method follows, with edition, or the lab's own. */
  basis: Paragraph,
  inForceFrom: Day,
  approvedBy: Key,
  channels: z.array(MethodChannel),
  characteristics: z.array(MethodCharacteristic).min(1),
  failureModes: z.array(FailureMode),
  /** Fewest specimens on which a lot bound is printed. */
  minimumSpecimens: z.number().int().min(1),
  /** What a person confirms before a run; cautions included. */
  readiness: z.array(Paragraph),
};

/** One revision of a written procedure: how a run is made, read and examined. */
export const Method = z
  .discriminatedUnion('test', [
    z.strictObject({ test: z.literal('burst'), ...common, parameters: BurstParameters }),
    z.strictObject({ test: z.literal('heat'), ...common, parameters: HeatParameters }),
    z.strictObject({ test: z.literal('impact'), ...common, parameters: ImpactParameters }),
    /** Values measured elsewhere and keyed from a results table; no trace is read. */
    z.strictObject({ test: z.literal('table'), ...common, parameters: z.strictObject({}) }),
  ])
  .superRefine((method, context) => {
    const names = new Set(method.characteristics.map((one) => one.characteristic));
    for (const [index, mode] of method.failureModes.entries())
      for (const name of Object.keys(mode.countsAs))
        if (!names.has(name))
          context.addIssue({
            code: 'custom',
            path: ['failureModes', index, 'countsAs', name],
            message: `names ${name}, which is no characteristic of this method`,
          });
  });
export type Method = z.infer<typeof Method>;
export type BurstMethod = Extract<Method, { test: 'burst' }>;
export type HeatMethod = Extract<Method, { test: 'heat' }>;
export type ImpactMethod = Extract<Method, { test: 'impact' }>;
