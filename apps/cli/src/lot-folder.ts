import fs from 'node:fs';
import path from 'node:path';
import {
  LOT_FOLDER_DOCUMENTS,
  type LotBundle,
  OPTIONAL_LOT_DOCUMENTS,
  Refusal,
  readLotFolder,
  shown,
} from '@breakbook/lab';

/** The bytes of a run's files, in the order the run names them. */
export type SentFiles = (run: string) => { name: string; bytes: Uint8Array }[];

export interface OpenLotFolder {
  bundle: LotBundle;
  filesOf: SentFiles;
}

/** Opens a lot folder from the disk. */
export function openLotFolder(folder: string): OpenLotFolder {
  if (!fs.existsSync(folder) || !fs.statSync(folder).isDirectory())
    throw new Refusal({
      code: 'file.missing',
      file: folder,
      detail: `There is no folder ${shown(folder)}. Give the folder that holds ${LOT_FOLDER_DOCUMENTS.join(', ')}.`,
    });
  const bundle = readLotFolder(lotDocuments(folder));
  return { bundle, filesOf: runFilesIn(folder, bundle) };
}

/** The documents of a lot folder that are there, by name. */
export function lotDocuments(folder: string): Map<string, Uint8Array> {
  return new Map(
    [...LOT_FOLDER_DOCUMENTS, ...OPTIONAL_LOT_DOCUMENTS]
      .map((name) => path.join(folder, name))
      .filter((file) => fs.existsSync(file))
      .map((file) => [path.basename(file), fs.readFileSync(file)]),
  );
}

export function runFilesIn(folder: string, { runs }: LotBundle): SentFiles {
  const files = new Map(runs.map(({ run, files }) => [run, files.map(({ name }) => name)]));
  return (run) => (files.get(run) ?? []).map((name) => ({ name, bytes: runFile(folder, name) }));
}

/** The lot folders that lie in a folder which is none itself, by name; none where there is no such folder. */
export function lotFoldersIn(folder: string): string[] {
  if (!fs.existsSync(folder) || !fs.statSync(folder).isDirectory() || isLotFolder(folder)) return [];
  return fs
    .readdirSync(folder)
    .sort()
    .map((name) => path.join(folder, name))
    .filter(isLotFolder);
}

function isLotFolder(folder: string): boolean {
  return fs.existsSync(path.join(folder, 'lot.json'));
}

/** A run file lies in the lot folder; a name that leads out of it is not followed. */
function runFile(folder: string, name: string): Uint8Array {
  const file = path.resolve(folder, name);
  if (!file.startsWith(`${path.resolve(folder)}${path.sep}`))
    throw new Refusal({
      code: 'file.name-invalid',
      file: name,
      detail: `runs.json names ${shown(name)}, which leads out of the lot folder. Put the file into the folder.`,
    });
  if (!fs.existsSync(file))
    throw new Refusal({
      code: 'file.missing',
      file: name,
      detail: `runs.json names ${shown(name)}, and there is no such file in the lot folder. Add it, or take the name out.`,
    });
  return fs.readFileSync(file);
}
