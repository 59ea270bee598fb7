import fs from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { LOT_FOLDER_DOCUMENTS, type LotBundle, readLotFolder } from '@breakbook/lab';
import type { SentRunFile } from '@breakbook/service';

const samples = fileURLToPath(new URL('../../sample-runs', import.meta.url));

/** Every lot folder of the samples, by name. */
export const FOLDERS = fs.readdirSync(samples).filter((name) => fs.existsSync(path.join(samples, name, 'lot.json')));

export interface Folder {
  bundle: LotBundle;
  filesOf: (run: string) => SentRunFile[];
}

/** A lot folder of the samples as the command line reads it. */
export function folder(name: string): Folder {
  const at = path.join(samples, name);
  const documents = LOT_FOLDER_DOCUMENTS.map((file) => [file, fs.readFileSync(path.join(at, file))] as const);
  const bundle = readLotFolder(new Map(documents));
  const filesOf = (run: string) =>
    (bundle.runs.find((one) => one.run === run)?.files ?? []).map(({ name: file }) => ({
      name: file,
      bytes: fs.readFileSync(path.join(at, file)),
    }));
  return { bundle, filesOf };
}
