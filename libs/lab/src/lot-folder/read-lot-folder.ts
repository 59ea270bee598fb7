import { z } from 'zod';
import { Layout } from '../layouts.js';
import { Limit } from '../limits.js';
import { EarlierSample, type LotBundle } from '../lot-bundle.js';
import { Lot, Specimen } from '../lots.js';
import { Method } from '../methods.js';
import { Customer, Lab, Person } from '../people.js';
import { Plan } from '../plans.js';
import { type Problem, Refusal } from '../problems.js';
import { Product } from '../products.js';
import { Calibration, Rig, Sensor } from '../rigs.js';
import { Run } from '../runs.js';
import { schemaProblems } from '../schema-problems.js';
import { readJson } from './read-json.js';

/** The documents of a lot folder, each with the schema it must fit. */
const DOCUMENTS = {
  'lab.json': z.strictObject({ lab: Lab, customer: Customer, people: z.array(Person).min(1) }),
  'product.json': Product,
  'plan.json': Plan,
  'limits.json': z.array(Limit),
  'methods.json': z.array(Method).min(1),
  'rigs.json': z.strictObject({
    rigs: z.array(Rig),
    layouts: z.array(Layout),
    sensors: z.array(Sensor),
    calibrations: z.array(Calibration),
  }),
  'lot.json': z.strictObject({ lot: Lot, specimens: z.array(Specimen) }),
  'runs.json': z.array(Run),
} as const;

/** What a folder may hold beside them. */
const OPTIONAL_DOCUMENTS = { 'earlier-lots.json': z.array(EarlierSample) } as const;

type Documents = typeof DOCUMENTS & typeof OPTIONAL_DOCUMENTS;
type DocumentName = keyof Documents;

export const LOT_FOLDER_DOCUMENTS = Object.keys(DOCUMENTS) as (keyof typeof DOCUMENTS)[];
export const OPTIONAL_LOT_DOCUMENTS = Object.keys(OPTIONAL_DOCUMENTS) as (keyof typeof OPTIONAL_DOCUMENTS)[];

/**
 * A lot folder's documents as one bundle, or a refusal that names every problem by file and place.
 * `documents` maps the file names of `LOT_FOLDER_DOCUMENTS`, and of `OPTIONAL_LOT_DOCUMENTS` where they are there, to
 * their bytes.
 */
export function readLotFolder(documents: ReadonlyMap<string, Uint8Array>): LotBundle {
  const problems: Problem[] = [];
  const read = <N extends DocumentName>(name: N): z.infer<Documents[N]> | undefined => {
    try {
      return readDocument(name, documents.get(name));
    } catch (error) {
      if (!(error instanceof Refusal)) throw error;
      problems.push(...error.problems);
      return undefined;
    }
  };

  const lab = read('lab.json');
  const product = read('product.json');
  const plan = read('plan.json');
  const limits = read('limits.json');
  const methods = read('methods.json');
  const rigs = read('rigs.json');
  const lot = read('lot.json');
  const runs = read('runs.json');
  const earlier = documents.has('earlier-lots.json') ? read('earlier-lots.json') : undefined;
  if (problems.length > 0) throw new Refusal(problems);
  if (!lab || !product || !plan || !limits || !methods || !rigs || !lot || !runs) throw new Refusal(problems);
  return { ...lab, product, plan, limits, methods, ...rigs, ...lot, runs, ...(earlier ? { earlier } : {}) };
}

function readDocument<N extends DocumentName>(name: N, bytes: Uint8Array | undefined): z.infer<Documents[N]> {
  if (!bytes)
    throw new Refusal({
      code: 'file.missing',
      file: name,
      detail: `${name} is missing. A lot folder holds ${LOT_FOLDER_DOCUMENTS.join(', ')} and the run files that runs.json names.`,
    });
  const value = readJson(bytes, name);
  const parsed = { ...DOCUMENTS, ...OPTIONAL_DOCUMENTS }[name].safeParse(value);
  if (!parsed.success) throw new Refusal(schemaProblems(parsed.error, value, name));
  return parsed.data as z.infer<Documents[N]>;
}
