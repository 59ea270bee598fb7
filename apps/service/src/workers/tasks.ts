import fs from 'node:fs';
import {
  claimEntries,
  evaluateLot,
  evaluateRun,
  type LotEvaluation,
  type PlanToWeigh,
  planDesigns,
  planRisks,
  type WhatIf,
  type WhatIfChange,
  whatCanShow,
  whatIf,
} from '@breakbook/acceptance';
import { canonicalJson, type KeyList, sha256 } from '@breakbook/evidence';
import {
  type ClaimEntry,
  type Designs,
  type DesignsAsked,
  type Layout,
  type LotBundle,
  type LotResult,
  type MethodChannel,
  type PlanRisks,
  type PrintChoice,
  printKept,
  type Reading,
  Refusal,
  type RunJudgement,
  type Showable,
  type ShowableAsked,
  SOFTWARE,
  type Trace,
} from '@breakbook/lab';
import type {
  DocumentContents,
  LotReportContent,
  RecomputedDocument,
  ReportAffairs,
  ReportIdentity,
  Sealing,
} from '@breakbook/reports';
import {
  blocksOf,
  type LayoutProposal,
  type LayoutTrial,
  type OldResultsTable,
  proposeLayout,
  readOldResults,
  refuseFutureDays,
  type TraceBlock,
  traceOutline,
  tryLayout,
} from '@breakbook/signals';
import { type ComputeReply, compute } from '@breakbook/statistics';
import { type Thumbnail, thumbnailOf } from '../attachments/thumbnail.js';
import { jsonBody } from '../http/json-body.js';
import { UPLOAD_BOUNDS } from '../uploads/bounds.js';
import { recomputedFile, type VerifiedFile, verifiedFile } from './checked-document.js';
import { type CaseToCompare, type Compared, comparedStored } from './compare.js';
import { composedSheet, type SheetContent, type SheetToCompose } from './compose-sheet.js';
import { bytesOf, type RunFileSource, type RunToRead, readRunToRead } from './run-to-read.js';

/** A trace of a screen's width shows no more points than twice this. */
const OUTLINE_BUCKETS = 600;

/** How far a task is, a fraction, and what it is at. */
export interface TaskProgress {
  share: number;
  at: string;
}

/** A lot with its files on disk, each read when its run's turn comes. */
export interface LotToEvaluate {
  bundle: LotBundle;
  files: { run: string; files: RunFileSource[] }[];
}

/** An evaluation without the traces, which are long and are read again where they are drawn. */
export type EvaluationOnly = Omit<LotEvaluation, 'runs'> & { runs: Omit<LotEvaluation['runs'][number], 'traces'>[] };

/** A run read and judged, its record thinned for a screen. */
export interface ReadAgain {
  reading: Reading;
  judgement: RunJudgement;
  channels: {
    channel: string;
    unit: string;
    reference?: 'gauge' | 'absolute';
    passage?: number;
    time: number[];
    values: number[];
  }[];
}

/** A channel of a run, packed to be kept. */
export interface PackedTrace {
  channel: string;
  unit: string;
  reference?: 'gauge' | 'absolute';
  passage?: number;
  samples: number;
  /** SHA-256 of its times: channels of one record share it. */
  clock: string;
  blocks: TraceBlock[];
}

/** The heavy work of the service: pure functions over what they are handed, each run in a thread of its own. */
export interface Tasks {
  'read run': { input: RunToRead; output: Reading };
  'evaluate lot': { input: LotToEvaluate; output: EvaluationOnly };
  'what if': { input: { bundle: LotBundle; change: WhatIfChange; readings: Map<string, Reading> }; output: WhatIf };
  'compose report': {
    input: LotToEvaluate & {
      identity: ReportIdentity;
      judged: LotResult;
      affairs: ReportAffairs;
      print: PrintChoice;
    };
    output: { content: LotReportContent; pdf: Uint8Array };
  };
  'compose document': {
    input: { content: DocumentContents[keyof DocumentContents]; sealing?: Sealing };
    output: Uint8Array;
  };
  'claim entries': {
    input: { bundle: LotBundle; readings: Map<string, Reading> };
    output: Map<string, ClaimEntry>;
  };
  compare: { input: CaseToCompare; output: Compared };
  'compose sheet': { input: SheetToCompose; output: { content: SheetContent; pdf: Uint8Array } };
  'verify document': { input: { file: Uint8Array; keys: KeyList }; output: VerifiedFile };
  'recompute document': {
    input: { file: Uint8Array; kept: (RunFileSource & { sha256: string })[] };
    output: RecomputedDocument;
  };
  'evaluate run': { input: { bundle: LotBundle; run: string; files: RunFileSource[] }; output: ReadAgain };
  'pack traces': { input: RunToRead; output: PackedTrace[] };
  'propose layout': { input: { name: string; path: string }; output: LayoutProposal };
  'try layout': {
    input: { name: string; path: string; layout: Layout; channels: MethodChannel[] };
    output: LayoutTrial;
  };
  'read old results': { input: { name: string; bytes: Uint8Array; today: string }; output: OldResultsTable };
  'make thumbnail': { input: { photo: Uint8Array }; output: Thumbnail };
  compute: { input: { body: Uint8Array }; output: ComputeReply };
  'plan designs': { input: DesignsAsked; output: Designs };
  'show what n can': { input: ShowableAsked; output: Showable };
  'weigh plan': { input: PlanToWeigh; output: PlanRisks };
}

export type TaskName = keyof Tasks;
type Progress = (progress: TaskProgress) => void;

export const TASKS: {
  [Name in TaskName]: (
    input: Tasks[Name]['input'],
    onProgress: Progress,
  ) => Tasks[Name]['output'] | Promise<Tasks[Name]['output']>;
} = {
  'read run': async (input) => (await readRunToRead(input)).reading,

  'evaluate lot': (input, onProgress) => {
    const { runs, ...rest } = evaluate(input, onProgress);
    return { ...rest, runs: runs.map(({ traces: _traces, ...run }) => run) };
  },

  'what if': ({ bundle, change, readings }) => whatIf(bundle, change, { readings }),

  'compose report': async ({ identity, judged, affairs, print, ...input }, onProgress) => {
    const evaluation = evaluate(input, ({ share, at }) => onProgress({ share: 0.7 * share, at }));
    requireSame(evaluation.result, judged);
    // Loaded here only, since it brings fonts that reading and judging never need.
    const { composeDocument, lotReportContent } = await import('@breakbook/reports');
    onProgress({ share: 0.7, at: 'laying out the report' });
    const content = lotReportContent({
      bundle: input.bundle,
      evaluation,
      document: identity,
      affairs,
      print: printKept(print),
    });
    return { content, pdf: await composeDocument('lot test report', content) };
  },

  'compose document': async ({ content, sealing }) => {
    const { composeDocument } = await import('@breakbook/reports');
    return composeDocument(content.document, content, sealing ? { sealing } : {});
  },

  'claim entries': ({ bundle, readings }) => claimEntries(bundle, readings),

  compare: comparedStored,

  'compose sheet': composedSheet,

  'verify document': verifiedFile,

  'recompute document': recomputedFile,

  'evaluate run': ({ bundle, run: key, files }) => {
    const run = bundle.runs.find((one) => one.run === key);
    if (!run) throw new Error(`The bundle of lot ${bundle.lot.lot} holds no run ${key}.`);
    const { reading, judgement, traces } = evaluateRun(bundle, run, files.map(inMemory));
    return { reading, judgement, channels: traces.map(thinned) };
  },

  'pack traces': async (input) =>
    (await readRunToRead(input)).traces.map(({ time, values, shown: _shown, ...channel }) => ({
      ...channel,
      samples: values.length,
      clock: sha256(new Uint8Array(time.buffer, time.byteOffset, time.byteLength)),
      blocks: [...blocksOf({ time, values })],
    })),

  'propose layout': ({ name, path }) => proposeLayout(name, fs.createReadStream(path)),

  'try layout': ({ name, path, layout, channels }) =>
    tryLayout(name, fs.createReadStream(path), layout, { channels, bounds: { bytes: UPLOAD_BOUNDS.unpackedBytes } }),

  'read old results': ({ name, bytes, today }) => {
    const table = readOldResults(name, bytes);
    refuseFutureDays(name, table.results, today);
    return table;
  },

  'make thumbnail': ({ photo }) => thumbnailOf(photo),

  compute: ({ body }) => compute(jsonBody(body)),

  'plan designs': planDesigns,

  'show what n can': whatCanShow,

  'weigh plan': planRisks,
};

function evaluate({ bundle, files }: LotToEvaluate, onProgress: Progress): LotEvaluation {
  const byRun = new Map(files.map((one) => [one.run, one.files]));
  return evaluateLot(
    bundle,
    (run) => (byRun.get(run) ?? []).map(inMemory),
    ({ run, done, of, share }) =>
      onProgress({
        share: of === 0 ? 1 : (done + share) / of,
        at: run === '' ? 'judging the lot' : `reading run ${run}`,
      }),
  );
}

/** As it is drawn, and as JSON has it, which knows no typed arrays. */
function thinned(trace: Trace): ReadAgain['channels'][number] {
  const { time: _time, values: _values, shown: _shown, ...channel } = trace;
  const outline = traceOutline(trace, OUTLINE_BUCKETS);
  return { ...channel, time: Array.from(outline.time), values: Array.from(outline.values) };
}

function inMemory(file: RunFileSource): { name: string; bytes: Uint8Array } {
  return { name: file.name, bytes: bytesOf(file) };
}

/** A document says what was judged, so what it is laid out from must give that judgement again, to the last digit. */
function requireSame(now: LotResult, judged: LotResult): void {
  if (canonicalJson(now) === canonicalJson(judged)) return;
  throw new Refusal({
    code: 'state.conflict',
    detail: `This lot was judged by ${judged.software}, and ${SOFTWARE} does not come to the same result from the same records.`,
    action: 'Evaluate the lot again and have the document made of that evaluation; both stay on record.',
  });
}
