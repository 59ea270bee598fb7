import fs from 'node:fs';
import path from 'node:path';
import {
  COMPARISON_DOCUMENT,
  COMPARISON_LOTS,
  type ComparisonDocument,
  type LotBundle,
  Refusal,
  readComparisonFolder,
  shown,
} from '@breakbook/lab';
import { lotDocuments, runFilesIn, type SentFiles } from './lot-folder.js';

export interface OpenComparison {
  document: ComparisonDocument;
  lots: { bundle: LotBundle; filesOf: SentFiles }[];
}

/** Opens a comparison from the disk: a folder, or one of several comparisons that lie in a folder over the same lots. */
export function openComparison(place: string): OpenComparison {
  const there = fs.existsSync(place);
  if (!there)
    throw new Refusal({
      code: 'file.missing',
      file: place,
      detail: `There is nothing at ${shown(place)}. Give a folder that holds ${COMPARISON_DOCUMENT} and ${COMPARISON_LOTS}/, or one of its comparisons.`,
    });
  const isFolder = fs.statSync(place).isDirectory();
  const root = isFolder ? place : path.dirname(place);
  const name = isFolder ? COMPARISON_DOCUMENT : path.basename(place);
  const lots = foldersIn(path.join(root, COMPARISON_LOTS));
  const own = path.join(root, name);
  const documents = new Map<string, Uint8Array>([
    ...(fs.existsSync(own) ? [[name, fs.readFileSync(own)] as const] : []),
    ...lots.flatMap((lot) =>
      [...lotDocuments(path.join(root, COMPARISON_LOTS, lot))].map(
        ([file, bytes]) => [`${COMPARISON_LOTS}/${lot}/${file}`, bytes] as const,
      ),
    ),
  ]);
  const read = readComparisonFolder(documents, name);
  return {
    document: read.document,
    lots: read.lots.map(({ folder, bundle }) => ({
      bundle,
      filesOf: runFilesIn(path.join(root, COMPARISON_LOTS, folder), bundle),
    })),
  };
}

function foldersIn(folder: string): string[] {
  if (!fs.existsSync(folder)) return [];
  return fs
    .readdirSync(folder, { withFileTypes: true })
    .filter((one) => one.isDirectory())
    .map(({ name }) => name)
    .sort();
}
