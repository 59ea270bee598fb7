import type { LotBundle } from '@breakbook/lab';
import type { Rows } from '@breakbook/records';
import { CALIBRATION } from '../calibrations/calibration-kind.js';
import { LAYOUT } from '../layouts/layout-kind.js';
import { LIMIT } from '../limits/limit-kind.js';
import { METHOD } from '../methods/method-kind.js';
import { PERSON } from '../people/person-kind.js';
import { PLAN } from '../plans/plan-kind.js';
import { PRODUCT } from '../products/product-kind.js';
import { keep } from '../records/write-kind.js';
import { keepPlacement } from '../rigs/placements.js';
import { RIG } from '../rigs/rig-kind.js';
import { SENSOR } from '../sensors/sensor-kind.js';
import { SPECIMEN } from '../specimens/specimen-kind.js';
import { LOT } from './lot-kind.js';
import { keepSampling } from './sampling.js';

/** Everything a lot's runs rest on, kept before them: who, what, by which method, plan and limits, on which rig. */
export async function importDefinitions(rows: Rows, bundle: LotBundle): Promise<void> {
  for (const person of bundle.people) await keep(rows, PERSON, person);
  await keep(rows, PRODUCT, bundle.product);
  for (const limit of bundle.limits) await keep(rows, LIMIT, limit);
  for (const method of bundle.methods) await keep(rows, METHOD, method);
  await keep(rows, PLAN, bundle.plan);
  await importRigs(rows, bundle);

  const { sampling, ...lot } = bundle.lot;
  const { noun } = await keep(rows, LOT, { ...lot, customer: bundle.customer });
  if (sampling) await keepSampling(rows, noun, sampling);
  for (const specimen of bundle.specimens) await keep(rows, SPECIMEN, specimen);
}

async function importRigs(rows: Rows, bundle: LotBundle): Promise<void> {
  for (const sensor of bundle.sensors) await keep(rows, SENSOR, sensor);
  for (const { placements, ...rig } of bundle.rigs) {
    await keep(rows, RIG, rig);
    for (const placement of placements) await keepPlacement(rows, rig.rig, placement);
  }
  for (const calibration of bundle.calibrations) await keep(rows, CALIBRATION, calibration);
  for (const layout of bundle.layouts) await keep(rows, LAYOUT, layout);
}
