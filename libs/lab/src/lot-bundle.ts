import { z } from 'zod';
import { Layout } from './layouts.js';
import { Limit } from './limits.js';
import { Lot, Specimen } from './lots.js';
import { Method } from './methods.js';
import { Customer, Lab, Person } from './people.js';
import { Plan } from './plans.js';
import { Product } from './products.js';
import { Calibration, Rig, Sensor } from './rigs.js';
import { Run } from './runs.js';

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
});
export type LotBundle = z.infer<typeof LotBundle>;
