import { evaluateRun, judgeRun } from '@breakbook/acceptance';
import { differencesBetween } from '@breakbook/evidence';
import {
  type ClaimEntry,
  type LotBundle,
  type PrintChoice,
  printKept,
  type Reading,
  Refusal,
  type Run,
  SOFTWARE,
  withFlags,
  withoutSoftware,
} from '@breakbook/lab';
import type {
  DocumentIdentity,
  LabelSheetContent,
  labelSheetContent,
  RunSheetContent,
  SpecimenRecordContent,
  specimenRecordContent,
} from '@breakbook/reports';
import { bytesOf, type RunFileSource } from './run-to-read.js';

type Told = { number: string; revision: number };
type Records = Parameters<typeof specimenRecordContent>[0];
type Labels = Parameters<typeof labelSheetContent>[0];

/** What a sheet is laid out from: what stands in the records, and of a run its raw files. */
export type SheetToCompose =
  | {
      kind: 'run sheet';
      bundle: LotBundle;
      run: string;
      files: RunFileSource[];
      /** As it is kept, and as it is told with what other runs show about it. */
      kept: Reading;
      told: Reading;
      entry: ClaimEntry | undefined;
      report: Told | undefined;
      document: DocumentIdentity;
      print: PrintChoice;
    }
  | ({
      kind: 'specimen record';
      readings: Reading[];
      print: PrintChoice;
    } & Omit<Records, 'evaluation' | 'print'>)
  | ({ kind: 'label sheet'; language: PrintChoice['language'] } & Omit<Labels, 'codeOf' | 'grid' | 'print'> & {
        grid: Extract<Labels['grid'], string>;
      });

export type SheetContent = RunSheetContent | SpecimenRecordContent | LabelSheetContent;

/** A sheet with the content it is laid out from. */
export async function composedSheet(sheet: SheetToCompose): Promise<{ content: SheetContent; pdf: Uint8Array }> {
  const { composeDocument } = await import('@breakbook/reports');
  const content = await contentOf(sheet);
  return { content, pdf: await composeDocument(content.document, content) };
}

async function contentOf(sheet: SheetToCompose): Promise<SheetContent> {
  const rooms = await import('@breakbook/reports');
  if (sheet.kind === 'label sheet') {
    const { kind: _, language, ...given } = sheet;
    const { paper } = rooms.LABEL_GRIDS[given.grid];
    return rooms.labelSheetContent({ ...given, print: printKept({ paper, language, units: 'as kept' }) });
  }
  const { bundle, print } = sheet;
  if (sheet.kind === 'specimen record') {
    const { kind: _, readings, print: __, ...given } = sheet;
    const runs = readings.map((reading) => {
      const run = runNamed(bundle, reading.run);
      return { run, reading, judgement: judged(bundle, run, reading), traces: [] };
    });
    const chosen = printKept(print);
    return rooms.specimenRecordContent({
      ...given,
      evaluation: { runs, refused: [], result: { software: SOFTWARE, lines: [] } },
      ...(chosen ? { print: chosen } : {}),
    });
  }
  const { run: key, files, kept, told, entry, report, document } = sheet;
  const run = runNamed(bundle, key);
  const { reading, traces } = evaluateRun(
    bundle,
    run,
    files.map((file) => ({ name: file.name, bytes: bytesOf(file) })),
  );
  requireSame(kept, reading);
  return rooms.runSheetContent({
    bundle,
    evaluation: {
      runs: [{ run, reading: told, judgement: judged(bundle, run, told), traces }],
      refused: [],
      result: { software: SOFTWARE, lines: entry ? [{ entries: [entry] }] : [] },
    },
    run: key,
    document,
    report,
    print: printKept(print),
  });
}

function runNamed({ runs, lot }: LotBundle, key: string): Run {
  const run = runs.find((one) => one.run === key);
  if (!run) throw new Error(`The bundle of lot ${lot.lot} holds no run ${key}.`);
  return run;
}

function judged({ plan, methods, limits }: LotBundle, run: Run, reading: Reading) {
  const method = methods.find((one) => one.method === run.method && one.revision === run.methodRevision);
  if (!method) throw new Error(`The records of run ${run.run} hold no ${run.method} rev. ${run.methodRevision}.`);
  return judgeRun({ plan, method, limits, reading, run });
}

/** A sheet says what the run's page says, so the files must give that reading again, to the last digit. */
function requireSame(kept: Reading, again: Reading): void {
  // That another run has the same numbers is told by the records, not by the files of this one.
  const ofOthers = kept.flags.filter(({ code }) => code === 'run.near-duplicate');
  const differences = differencesBetween(withoutSoftware(kept), withoutSoftware(withFlags(again, ofOthers)));
  const [first] = differences;
  if (!first) return;
  throw new Refusal({
    code: 'state.conflict',
    detail: `Run ${kept.run} was read by ${kept.software}, and ${SOFTWARE} does not read the same from the same files: ${first.place} was ${first.kept ?? 'not there'}, is ${first.now ?? 'not there'}.`,
    action: 'Have its lot evaluated again, and the sheet made after that; both readings stay on record.',
  });
}
