import { type Reading, Refusal, type Run } from '@breakbook/lab';
import {
  type Actor,
  prepareRaw,
  type RawStore,
  type Records,
  type Rows,
  rawFromBytes,
  rawFromFile,
  type SentPart,
  sizeOf,
} from '@breakbook/records';
import { refuseClosed } from '../lots/lot-closing.js';
import { refuseUnfit } from '../specimens/specimen-fate.js';
import { type RunFileSource, type RunToRead, readRunToRead } from '../workers/run-to-read.js';
import { keepRefused, waitingUnread } from './keep-refused.js';
import { refuseKnownBytes } from './known-bytes.js';
import { flaggedDuplicates } from './near-duplicates.js';
import { refuseProposed } from './refuse-proposed.js';
import { type RunContext, runContext } from './run-context.js';
import { problemsOfRun } from './run-problems.js';
import { writeRun } from './write-run.js';

export interface RecordedRun {
  runId: string;
  number: number;
  lot: string;
  destroyed: boolean;
  reading: Reading;
}

export interface RecordOptions {
  plan: { plan: string; revision: number };
  /** The unread file whose bytes are read again. */
  unreadFileId?: string;
  /** Where the files are read; in this thread, if nothing else is said. */
  read?: (run: RunToRead) => Promise<Reading>;
  /** What is asked before the files are read, of their size in bytes. */
  before?: (bytes: number) => Promise<void>;
  /** What else is kept in the change that keeps the run. */
  alongside?: (rows: Rows, recorded: RecordedRun & { bytes: number }) => Promise<void>;
  /** What else is kept where its bytes are kept unread. */
  besideUnread?: (rows: Rows, bytes: number) => Promise<void>;
}

/**
 * Keeps a run: its files bit for bit beside what they led to. Files are read before the transaction opens, since a
 * long one must hold no lock. Where they are refused their bytes are kept unread and nothing else changes.
 */
export async function recordRun(
  records: Records,
  store: RawStore,
  by: Actor,
  sent: Omit<Run, 'files' | 'validity'>,
  files: RunFileSource[],
  options: RecordOptions,
): Promise<RecordedRun> {
  const { files: _files, validity: _validity, ...run }: Omit<Run, 'files' | 'validity'> & Partial<Run> = sent;
  const parts = await Promise.all(
    files.map(
      async (file): Promise<SentPart> => ({
        name: file.name,
        bytes: await prepareRaw('path' in file ? rawFromFile(file.path) : rawFromBytes(file.bytes)),
      }),
    ),
  );
  const bytes = options.unreadFileId === undefined ? sizeOf(parts) : 0;
  await options.before?.(bytes);
  const reader = records.read(by.labId);
  try {
    const context = await runContext(reader, { ...run, plan: options.plan });
    await refuseKnownBytes(reader, parts);
    await refuseClosed(reader, context.lot, 'record a run', '/specimen');
    await refuseUnfit(reader, context.specimen, { plan: context.planRevision.content, planLine: run.planLine });
    await refuseProposed(reader, context);
    const described = { ...run, files: parts.map(({ name, bytes }) => ({ name, sha256: bytes.sha256 })) };
    const problems = await problemsOfRun(reader, context, described);
    if (problems.length > 0) throw new Refusal(problems);
    const reading = await (options.read ?? readHere)(
      runToRead(
        context,
        described,
        files.map((file, index) => ({ ...file, sha256: (parts[index] as SentPart).bytes.sha256 })),
      ),
    );
    const unreadFileId = options.unreadFileId ?? (await waitingUnread(reader, parts));
    return await records.change(by, 'run recorded', async (rows) => {
      const written = await writeRun(rows, store, { run, parts, context, reading, unreadFileId });
      // What is kept is what the files say; what other runs say beside it is looked up whenever it is told.
      const told = await flaggedDuplicates(rows, written.runId, reading);
      const recorded = { ...written, lot: context.lot.key, reading: told };
      await options.alongside?.(rows, { ...recorded, bytes });
      return recorded;
    });
  } catch (error) {
    if (error instanceof Refusal) await keepRefused(records, store, by, parts, error, options.besideUnread);
    throw error;
  }
}

async function readHere(run: RunToRead): Promise<Reading> {
  return (await readRunToRead(run)).reading;
}

export function runToRead(context: RunContext, run: Run, files: RunToRead['files']): RunToRead {
  return {
    method: context.method,
    ...(context.layoutRevision ? { layout: context.layoutRevision.content } : {}),
    ...(context.rig ? { rig: context.rig.content } : {}),
    calibrations: context.calibrations.map(({ content }) => content),
    files,
    run,
    markedMaximum: context.product.content.markedMaximum,
    ...(context.product.content.glassTransition ? { glassTransition: context.product.content.glassTransition } : {}),
  };
}
