import { LOT_FOLDER_DOCUMENTS, Refusal, readJson, readLotFolder } from '@breakbook/lab';
import { type Digest, digestOf } from '../digest.js';
import { LOT_FOLDER, type PackageResource } from './data-package.js';
import type { NamedRow } from './package-ledger.js';
import { bytesOfFile, DoesNotFit, type PackageSource } from './package-source.js';

type Json = Record<string, unknown>;

/** What a run says that stands in rows of their own. */
const OF_RUNS = [
  ['measurements', 'measurement'],
  ['photos', 'attachment_version'],
] as const;

/**
 * Does a lot folder say what the rows of the ledger say, and nothing else? Every thing in it (the plan, a limit, a
 * specimen, a measurement) must be the content of a row, and every file of a run bytes that a row has the digest of.
 */
export async function checkLotFolder(
  source: PackageSource,
  resources: readonly PackageResource[],
  rows: readonly NamedRow[],
): Promise<string> {
  const documents = new Map<string, Buffer>();
  for (const name of LOT_FOLDER_DOCUMENTS) {
    const path = `${LOT_FOLDER}/${name}`;
    if (!source.paths.includes(path)) throw new DoesNotFit(path, 'it is missing, and the lot cannot be judged without');
    documents.set(name, await bytesOfFile(source, path));
  }
  const { lot } = asFolder(documents);
  const contents = contentsOf(rows);
  const read = (name: (typeof LOT_FOLDER_DOCUMENTS)[number]) =>
    readJson(documents.get(name) ?? Buffer.alloc(0), `${LOT_FOLDER}/${name}`);
  const require = (document: string, table: string, content: unknown, what: string) => {
    if (!contents.has(keyOf(table, digestOf(content))))
      throw new DoesNotFit(`${LOT_FOLDER}/${document}`, `${what} is not what any row of ${table} says`);
  };
  const all = (document: string, table: string, list: unknown, what: string) => {
    for (const [index, one] of (list as unknown[]).entries()) require(document, table, one, `${what} ${index + 1}`);
  };

  const lab = read('lab.json') as Json;
  require('lab.json', 'lab_version', lab.lab, 'the lab');
  require('lab.json', 'lot_version customer', lab.customer, 'the customer');
  all('lab.json', 'person_version', lab.people, 'person');
  require('product.json', 'product_version', read('product.json'), 'the product');
  require('plan.json', 'plan_revision', read('plan.json'), 'the plan');
  all('limits.json', 'limit_revision', read('limits.json'), 'limit');
  all('methods.json', 'method_revision', read('methods.json'), 'method');

  const { rigs, layouts, sensors, calibrations } = read('rigs.json') as Record<string, Json[]>;
  for (const { placements, ...rig } of rigs ?? []) {
    require('rigs.json', 'rig_version', rig, `rig ${String(rig.rig)}`);
    all('rigs.json', 'sensor_placement', placements, `rig ${String(rig.rig)}, placement`);
  }
  all('rigs.json', 'layout_revision', layouts, 'layout');
  all('rigs.json', 'sensor_version', sensors, 'sensor');
  all('rigs.json', 'calibration_version', calibrations, 'calibration');

  const { lot: of, specimens } = read('lot.json') as { lot: Json; specimens: unknown };
  const { sampling, ...said } = of;
  require('lot.json', 'lot_version', said, 'the lot');
  if (sampling !== undefined) require('lot.json', 'sampling_record', sampling, 'the sampling');
  all('lot.json', 'specimen_version', specimens, 'specimen');

  const sentAs = new Map(resources.map((one) => [one.path, one.sentAs]));
  const digests = new Map(resources.map(({ path, hash }) => [path, hash.replace('sha256:', '')]));
  for (const { files, measurements, photos, examination, validity, ...run } of read('runs.json') as Json[]) {
    const named = `run ${String(run.run)}`;
    require('runs.json', 'run_version', namedAsSent(run, sentAs), named);
    for (const [member, table] of OF_RUNS)
      all('runs.json', table, { measurements, photos }[member] ?? [], `${named}, ${member}`);
    if (examination !== undefined) require('runs.json', 'examination', examination, `${named}, examination`);
    if (validity !== undefined) require('runs.json', 'validity_decision', validity, `${named}, validity`);
    for (const { name, sha256 } of files as { name: string; sha256?: string }[])
      if (sha256 === undefined || digests.get(`${LOT_FOLDER}/${name}`) !== sha256)
        throw new DoesNotFit(
          `${LOT_FOLDER}/runs.json`,
          `${named} names the file ${name} with another digest than it has`,
        );
  }
  return lot.lot;
}

function asFolder(documents: ReadonlyMap<string, Buffer>) {
  try {
    return readLotFolder(documents);
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    const [first] = error.problems;
    throw new DoesNotFit(`${LOT_FOLDER}/${first?.file ?? 'lot.json'}`, first?.detail ?? error.message);
  }
}

export function contentsOf(rows: readonly NamedRow[]): Set<string> {
  const contents = new Set<string>();
  for (const { table, row } of rows) {
    if (row.content !== undefined) contents.add(keyOf(table, digestOf(row.content)));
    if (row.customer !== undefined) contents.add(keyOf(`${table} customer`, digestOf(row.customer)));
  }
  return contents;
}

export function keyOf(table: string, digest: Digest): string {
  return `${table} ${digest}`;
}

/** Passages name files as they were sent; where one has another name in the package, its own is put back. */
function namedAsSent(run: Json, sentAs: ReadonlyMap<string, string | undefined>): Json {
  if (!Array.isArray(run.passages)) return run;
  const passages = (run.passages as Json[]).map((one) =>
    one.file === undefined ? one : { ...one, file: sentAs.get(`${LOT_FOLDER}/${String(one.file)}`) ?? one.file },
  );
  return { ...run, passages };
}
