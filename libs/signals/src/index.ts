/** From raw run files to checks and characteristics. Nothing in this room knows a limit. */
export type { HoldFound } from './features/holds.js';
export { type TraceOutline, traceOutline } from './features/trace-outline.js';
export { FILE_BOUNDS, type FileBounds } from './files/file-bounds.js';
export { type FoundColumn, type LayoutProposal, proposeLayout } from './files/propose-layout.js';
export { type FileSurvey, type SurveyedColumn, surveyFile } from './files/survey-file.js';
export { type LayoutTrial, tryLayout } from './files/try-layout.js';
export {
  OLD_RESULTS_BOUNDS,
  type OldResultsTable,
  readOldResults,
  refuseFutureDays,
} from './old-results/read-old-results.js';
export { readRun } from './runs/read-run.js';
export type { SentFile } from './runs/run-file.js';
export type { ReadRun, RunInput } from './runs/run-input.js';
export {
  type ReadStrike,
  type StaircaseTrial,
  type StaircaseTrials,
  staircaseTrials,
} from './runs/staircase-trials.js';
export { type BlockSpan, blocksOf, samplesOf, type TraceBlock, traceFrom } from './traces/trace-blocks.js';
export { type BlockSource, type TraceWindow, traceWindow, type WindowAsked } from './traces/trace-window.js';
