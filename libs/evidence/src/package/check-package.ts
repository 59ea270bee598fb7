import { LOT_FOLDER_DOCUMENTS, OPTIONAL_LOT_DOCUMENTS, Refusal, readJson } from '@breakbook/lab';
import { type Digest, sha256, sha256OfChunks } from '../digest.js';
import { type NoteKey, parseNoteKey } from '../signed-note.js';
import { checkFlag } from './check-flag.js';
import {
  DataPackage,
  DESCRIPTOR,
  LEDGER,
  LOT_FOLDER,
  type PackageResource,
  SAFETY_FLAG,
  SEAL,
} from './data-package.js';
import { whyNoTable } from './data-table.js';
import { checkLotFolder } from './lot-rests-on-rows.js';
import { checkPackageLedger, type NamedRow } from './package-ledger.js';
import { bytesOfFile, DoesNotFit, type PackageSource, textOfFile } from './package-source.js';
import { openSeal } from './seal.js';

export interface PackageHolds {
  holds: true;
  lot: string;
  /** Of the ledger: the key's name, and how many entries it had. */
  origin: string;
  size: number;
  files: number;
  entries: number;
  rows: number;
}

/** The first file that is not as it was. */
export interface PackageBroken {
  holds: false;
  path: string;
  because: string;
}

export interface CheckPackageOptions {
  /** The public key of the lab's ledger, from elsewhere. Without it, the package shows only that it fits itself. */
  key?: NoteKey;
  onProgress?: (done: number, of: number) => void;
}

/**
 * Is a package as it was handed out? In this order: the seal over the descriptor; each file against its size and digest,
 * and that none is there beside them; each table against its schema; the checkpoint, the proof of every entry under it,
 * and every row against its entry; and that the lot folder, its run files, photos and documents are what those rows say.
 */
export async function checkPackage(
  source: PackageSource,
  { key, onProgress = () => {} }: CheckPackageOptions = {},
): Promise<PackageHolds | PackageBroken> {
  try {
    return await checked(source, key, onProgress);
  } catch (error) {
    if (!(error instanceof DoesNotFit)) throw error;
    return { holds: false, path: error.path, because: error.because };
  }
}

async function checked(
  source: PackageSource,
  given: NoteKey | undefined,
  onProgress: (done: number, of: number) => void,
): Promise<PackageHolds> {
  for (const path of [DESCRIPTOR, SEAL, LEDGER.key, LEDGER.checkpoint, LEDGER.entries, LEDGER.rows])
    if (!source.paths.includes(path)) throw new DoesNotFit(path, 'it is missing');
  const key = given ?? (await ownKey(source));
  const { resources, lot } = await sealedDescriptor(source, key);
  await checkFiles(source, resources, onProgress);
  for (const { path, schema } of resources) {
    const because = schema && whyNoTable(await textOfFile(source, path), schema);
    if (because) throw new DoesNotFit(path, because);
  }
  const ledger = await checkPackageLedger(source, key);
  const found = await checkLotFolder(source, resources, ledger.rows);
  if (found !== lot) throw new DoesNotFit(DESCRIPTOR, `it is of lot ${lot}, and the lot folder of ${found}`);
  await checkFlag(source, ledger.rows);
  checkKeptBytes(resources, ledger.rows);
  const { origin, size } = ledger.checkpoint;
  return {
    holds: true,
    lot,
    origin,
    size,
    files: resources.length + 2,
    entries: ledger.entries,
    rows: ledger.rows.length,
  };
}

async function ownKey(source: PackageSource): Promise<NoteKey> {
  const text = await textOfFile(source, LEDGER.key);
  try {
    return parseNoteKey(text.replace(/\n$/, ''));
  } catch (error) {
    throw new DoesNotFit(LEDGER.key, (error as Error).message);
  }
}

async function sealedDescriptor(source: PackageSource, key: NoteKey): Promise<DataPackage> {
  const seal = await textOfFile(source, SEAL);
  let digest: Digest;
  try {
    digest = openSeal(seal, key);
  } catch (error) {
    throw new DoesNotFit(SEAL, (error as Error).message);
  }
  const bytes = await bytesOfFile(source, DESCRIPTOR);
  if (sha256(bytes) !== digest) throw new DoesNotFit(DESCRIPTOR, `it has not the digest ${digest} that the seal names`);
  let read: unknown;
  try {
    read = readJson(bytes, DESCRIPTOR);
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    throw new DoesNotFit(DESCRIPTOR, error.message);
  }
  const parsed = DataPackage.safeParse(read);
  if (parsed.success) return parsed.data;
  const [issue] = parsed.error.issues;
  throw new DoesNotFit(DESCRIPTOR, `/${(issue?.path ?? []).join('/')}: ${issue?.message}`);
}

async function checkFiles(
  source: PackageSource,
  resources: readonly PackageResource[],
  onProgress: (done: number, of: number) => void,
): Promise<void> {
  const listed = new Set([DESCRIPTOR, SEAL, ...resources.map(({ path }) => path)]);
  const unlisted = source.paths.find((path) => !listed.has(path));
  if (unlisted !== undefined) throw new DoesNotFit(unlisted, `${DESCRIPTOR} does not list it`);
  const there = new Set(source.paths);
  for (const [done, { path, bytes, hash }] of resources.entries()) {
    onProgress(done, resources.length);
    if (!there.has(path)) throw new DoesNotFit(path, 'it is missing');
    const found = await sha256OfChunks(source.read(path));
    if (found.size !== bytes) throw new DoesNotFit(path, `it has ${found.size} bytes, and had ${bytes}`);
    if (`sha256:${found.digest}` !== hash)
      throw new DoesNotFit(path, `it has the digest ${found.digest}, and had ${hash}`);
  }
  onProgress(resources.length, resources.length);
}

/** What is derived or says of itself what it is; everything else are bytes that the lab kept. */
const DERIVED = new Set([
  'README.txt',
  'result.json',
  ...Object.values(LEDGER),
  ...Object.values(SAFETY_FLAG),
  ...[...LOT_FOLDER_DOCUMENTS, ...OPTIONAL_LOT_DOCUMENTS].map((name) => `${LOT_FOLDER}/${name}`),
]);

function checkKeptBytes(resources: readonly PackageResource[], rows: readonly NamedRow[]): void {
  const kept = new Set(
    rows.filter(({ table }) => table === 'raw_bytes').map(({ row }) => `sha256:${String(row.sha256)}`),
  );
  for (const { path, hash, schema } of resources)
    if (!DERIVED.has(path) && !schema && !kept.has(hash))
      throw new DoesNotFit(path, 'its bytes are those of no file that a row of the ledger names');
}
