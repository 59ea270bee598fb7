import { z } from 'zod';
import { Layout } from './layouts.js';
import { Limit } from './limits.js';
import { Lot, Specimen } from './lots.js';
import { ChannelName, Method } from './methods.js';
import { Customer, Lab, Person } from './people.js';
import { Plan } from './plans.js';
import { Product } from './products.js';
import { UnitCode } from './quantity.js';
import { Calibration, Rig, Sensor } from './rigs.js';
import { Run } from './runs.js';
import { Sample } from './sample.js';
import { Day, Key, Revision } from './text.js';

/** Values of one plan line of an earlier lot, as its own evaluation took them into its claim. */
export const EarlierSample = z.strictObject({
  lot: Key,
  /** In what order the lots were made: the day the lot was finished. */
  madeTo: Day,
  line: Key,
  method: Key,
  methodRevision: Revision,
  characteristic: ChannelName,
  unit: UnitCode,
  sample: Sample,
  /** Specimens of that claim which gave no value; with one of them the values are not whole, and nothing is pooled. */
  missing: z.number().int().min(1).optional(),
  /** The evaluation that the values are taken from, where there is one. */
  evaluation: z.string().optional(),
});
export type EarlierSample = z.infer<typeof EarlierSample>;

/**
 * A lot with everything its judgement rests on, but for the bytes of its run files. The command line makes it from a
 * folder, the service from its tables; both hand the same thing to the same pure functions.
 */
export const LotBundle = z.strictObject({
  lab: Lab,
  customer: Customer,
  people: z.array(Person).min(1),
  product: Product,
  lot: Lot,
  specimens: z.array(Specimen),
  plan: Plan,
  limits: z.array(Limit),
  methods: z.array(Method).min(1),
  layouts: z.array(Layout),
  rigs: z.array(Rig),
  sensors: z.array(Sensor),
  calibrations: z.array(Calibration),
  runs: z.array(Run),
  /** What earlier lots gave, for a plan that pools them. */
  earlier: z.array(EarlierSample).optional(),
});
export type LotBundle = z.infer<typeof LotBundle>;
