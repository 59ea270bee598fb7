import type { FileBytes } from '@breakbook/acceptance';
import { type Difference, differencesBetween } from '@breakbook/evidence';
import type { Run } from '@breakbook/lab';
import { composeDocument, type DocumentContents, type Sealing } from '../compose-document.js';
import { comparisonAgain } from './comparison-again.js';
import { type FilesOfRuns, filesRead, type LaidBeside } from './laid-beside.js';
import { lotAgain } from './lot-again.js';
import { runSheetAgain } from './run-sheet-again.js';
import { type SpecimenWithRecords, specimenAgain } from './specimen-again.js';

/** A document that holds all that its numbers are worked out from. */
export type RecomputableContent =
  | Exclude<DocumentContents[keyof DocumentContents], { document: 'specimen record' }>
  | SpecimenWithRecords;

const KINDS: readonly unknown[] = [
  'lot test report',
  'run sheet',
  'specimen record',
  'certificate of test',
  'label sheet',
  'comparison report',
] satisfies (keyof DocumentContents)[];

/** Can every number of this content be worked out from the content alone? */
export function isRecomputable(content: { document?: unknown; records?: unknown }): content is RecomputableContent {
  if (content.document === 'specimen record') return content.records !== undefined;
  return KINDS.includes(content.document);
}

/** A document's numbers worked out again, beside those it has. */
export interface RecomputedDocument {
  /** How many numbers were laid beside each other. */
  numbers: number;
  /** By which software they came to be, and by which methods the runs were read. */
  since: { software: string; methods: string[] };
  /** What the runs showed, where their files were there to be read again; else that was taken as it is. */
  filesRead: boolean;
  differences: Difference[];
  /** Is every page laid out from the data as it stands in the file? Undefined where the file is not signed. */
  pagesAlike: boolean | undefined;
}

export interface ToRecompute {
  content: RecomputableContent;
  /** The file itself with what stood in it for its signature, and what was attached. */
  file?: { unsigned: Uint8Array; sealing: Sealing };
  /** Files of the runs, where they are at hand; all of a run's or none. */
  filesOf?: (run: string) => FileBytes[] | undefined;
}

/**
 * Is every number of a document what its data come to? Runs are read again from their files where these are at hand,
 * every run and, where the document holds it, the lot are judged again, and the pages are laid out again; each number
 * is compared to its last bit. A comparison is made again from the results of its runs and what was seen. A label sheet has
 * no such numbers: its pages are laid out again.
 */
export async function recomputeDocument({ content, file, filesOf }: ToRecompute): Promise<RecomputedDocument> {
  const files: FilesOfRuns = new Map(
    runsIn(content).map(({ run, files: own }) => [run, own.length === 0 ? [] : filesOf?.(run)]),
  );
  const { kept, now, since } = laidBeside(content, files);
  return {
    numbers: countOf(kept),
    since,
    filesRead: filesOf !== undefined && content.document !== 'comparison report' && filesRead(files),
    differences: differencesBetween(kept, now),
    pagesAlike: file && (await laidOutAlike(content, file)),
  };
}

/** The runs whose files a document's numbers were read from. */
export function runsIn(content: RecomputableContent): Run[] {
  // What a comparison's runs showed is told by the reports of their lots, whose files they name.
  if (content.document === 'label sheet' || content.document === 'comparison report') return [];
  return (content.document === 'specimen record' ? content.records.bundle : content.bundle).runs;
}

function laidBeside(content: RecomputableContent, files: FilesOfRuns): LaidBeside {
  switch (content.document) {
    case 'run sheet':
      return runSheetAgain(content, files);
    case 'specimen record':
      return specimenAgain(content, files);
    case 'comparison report':
      return comparisonAgain(content);
    case 'label sheet':
      return { kept: {}, now: {}, since: { software: content.software, methods: [] } };
    default:
      return lotAgain(content, files);
  }
}

function countOf(value: unknown): number {
  if (typeof value === 'number') return 1;
  if (typeof value !== 'object' || value === null) return 0;
  return Object.values(value).reduce((sum: number, one) => sum + countOf(one), 0);
}

async function laidOutAlike(
  content: RecomputableContent,
  { unsigned, sealing }: NonNullable<ToRecompute['file']>,
): Promise<boolean> {
  for (const paper of ['A4', 'Letter'] as const) {
    const again = await composeDocument(content.document, content, { paper, sealing });
    if (Buffer.from(again).equals(unsigned)) return true;
  }
  return false;
}
