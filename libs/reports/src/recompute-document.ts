import { evaluateLot, type FileBytes, judgedFromReadings } from '@breakbook/acceptance';
import { type Difference, differencesBetween } from '@breakbook/evidence';
import { type RunJudgement, withoutSoftware } from '@breakbook/lab';
import { composeDocument, type Sealing } from './compose-document.js';
import { type LotReportContent } from './content/lot-report-content.js';
import { type CertificateContent } from './documents/certificate-of-test/content.js';

/** A document that holds a lot's records, what its runs were read as, and what was judged of them. */
export type RecomputableContent = LotReportContent | CertificateContent;

/** Can every number of this content be worked out from the content alone? The other kinds tell a part of a lot. */
export function isRecomputable(content: { document?: unknown }): content is RecomputableContent {
  return content.document === 'lot test report' || content.document === 'certificate of test';
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
 * every run and the lot are judged again, and the pages are laid out again; each number is compared to its last bit.
 */
export async function recomputeDocument({ content, file, filesOf }: ToRecompute): Promise<RecomputedDocument> {
  const { bundle, readings, refused, judgements, lot } = content;
  const kept = {
    lot: withoutSoftware(lot),
    runs: byRun(judgements),
    readings: Object.fromEntries(readings.map((one) => [one.run, withoutSoftware(one)])),
  };
  const files = new Map(bundle.runs.map(({ run, files: own }) => [run, own.length === 0 ? [] : filesOf?.(run)]));
  const filesRead = filesOf !== undefined && [...files.values()].every((own) => own !== undefined);
  const now = filesRead ? fromFiles(content, files) : fromReadings(content);
  return {
    numbers: countOf(kept),
    since: {
      software: lot.software,
      methods: [...new Set(readings.map(({ method: { method, revision } }) => `${method} rev. ${revision}`))],
    },
    filesRead,
    differences: differencesBetween({ ...kept, refused }, { ...now, refused: now.refused }),
    pagesAlike: file && (await laidOutAlike(content, file)),
  };
}

interface Recomputed {
  lot: object;
  runs: Record<string, RunJudgement>;
  readings: Record<string, object>;
  refused: LotReportContent['refused'];
}

function fromReadings({ bundle, readings, refused }: RecomputableContent): Recomputed {
  const kept = new Map(readings.map((one) => [one.run, one]));
  const { result, judgements } = judgedFromReadings(bundle, {
    readings: kept,
    refused: new Map(refused.map(({ run, problems }) => [run, problems])),
  });
  return {
    lot: withoutSoftware(result),
    runs: byRun(judgements),
    readings: Object.fromEntries(readings.map((one) => [one.run, withoutSoftware(one)])),
    refused,
  };
}

function fromFiles({ bundle }: RecomputableContent, files: ReadonlyMap<string, FileBytes[] | undefined>): Recomputed {
  const { result, runs, refused } = evaluateLot(bundle, (run) => files.get(run) ?? []);
  return {
    lot: withoutSoftware(result),
    runs: byRun(runs.map(({ judgement }) => judgement)),
    readings: Object.fromEntries(runs.map(({ reading }) => [reading.run, withoutSoftware(reading)])),
    refused: refused.map(({ run, unread }) => ({ run: run.run, problems: unread })),
  };
}

function byRun(judgements: readonly RunJudgement[]): Record<string, RunJudgement> {
  return Object.fromEntries(judgements.map((one) => [one.run, one]));
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
