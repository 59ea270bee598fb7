import fs from 'node:fs';
import path from 'node:path';
import {
  COMPARISON_LOTS,
  type ComparisonFolder,
  LOT_FOLDER_DOCUMENTS,
  type LotBundle,
  readComparisonFolder,
  readLotFolder,
} from '@breakbook/lab';
import { openDataSource, PostgresRawStore, Records } from '@breakbook/records';
import { hasLot, importComparison, importLot } from '@breakbook/service';
import type pg from 'pg';

/**
 * Loads the sample lots once. Each lot is asked for by its name, so that a first start that was killed half way is
 * made whole by the next, and an installation whose first lab is another one gets no demonstration.
 */
export async function loadDemoLab(
  database: pg.ClientConfig,
  folder: string,
  say: (line: string) => void,
): Promise<void> {
  const dataSource = await openDataSource(database);
  try {
    const records = new Records(dataSource);
    const labs = await records.labs();
    for (const lotFolder of lotFoldersIn(folder)) {
      const bundle = readLotFolder(documentsIn(lotFolder));
      if (labs.length > 0 && !labs.some(({ key }) => key === bundle.lab.lab)) return;
      if (await hasLot(records, bundle)) continue;
      const { runs } = await importLot(records, new PostgresRawStore(), bundle, (run) =>
        runFiles(lotFolder, bundle, run),
      );
      say(`demo lab: lot ${bundle.lot.lot} with ${runs} runs`);
    }
    for (const { document, lots } of comparisonsIn(folder)) {
      const { comparison } = document;
      const lab = (await records.labs()).find(({ key }) => key === lots[0]?.bundle.lab.lab);
      if (lab && (await importComparison(records, lab.id, document)))
        say(`demo lab: comparison ${comparison.comparison}`);
    }
  } finally {
    await dataSource.destroy();
  }
}

/** Every comparison of the comparison folders in a folder. */
function comparisonsIn(folder: string): ComparisonFolder[] {
  return foldersIn(folder).flatMap((one) => {
    const lots = foldersIn(path.join(one, COMPARISON_LOTS)).filter(isLotFolder);
    if (lots.length === 0) return [];
    const ofLots = lots.flatMap((lot) =>
      [...documentsIn(lot)].map(
        ([name, bytes]) => [`${COMPARISON_LOTS}/${path.basename(lot)}/${name}`, bytes] as const,
      ),
    );
    const named = foldersIn(one).filter((file) => file.endsWith('.json'));
    return named.map((file) => {
      const name = path.basename(file);
      return readComparisonFolder(new Map([...ofLots, [name, fs.readFileSync(file)]]), name);
    });
  });
}

/** Those of a folder, and those that lie in `lots/` of its comparison folders. */
function lotFoldersIn(folder: string): string[] {
  return foldersIn(folder).flatMap((one) =>
    isLotFolder(one) ? [one] : foldersIn(path.join(one, COMPARISON_LOTS)).filter(isLotFolder),
  );
}

function isLotFolder(folder: string): boolean {
  return fs.existsSync(path.join(folder, 'lot.json'));
}

function foldersIn(folder: string): string[] {
  if (!fs.existsSync(folder)) return [];
  return fs
    .readdirSync(folder)
    .sort()
    .map((name) => path.join(folder, name));
}

function documentsIn(folder: string): Map<string, Uint8Array> {
  const there = LOT_FOLDER_DOCUMENTS.filter((name) => fs.existsSync(path.join(folder, name)));
  return new Map(there.map((name) => [name, fs.readFileSync(path.join(folder, name))]));
}

function runFiles(folder: string, bundle: LotBundle, run: string): { name: string; bytes: Uint8Array }[] {
  const names = bundle.runs.find((one) => one.run === run)?.files ?? [];
  return names.map(({ name }) => ({ name, bytes: fs.readFileSync(path.join(folder, name)) }));
}
