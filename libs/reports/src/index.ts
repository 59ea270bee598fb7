export { attachedJson, composeDocument, type DocumentContents, type Sealing } from './compose-document.js';
export type { ReportAffairs } from './content/affairs.js';
export type { EvaluatedRuns } from './content/evaluated-runs.js';
export type { DocumentIdentity } from './content/identity.js';
export type { JudgedLot } from './content/judged-lot.js';
export {
  type LotReportContent,
  lotReportContent,
  type ReportIdentity,
  type ReportSignature,
  type ReportTrace,
} from './content/lot-report-content.js';
export { type CertificateContent, certificateContent } from './documents/certificate-of-test/content.js';
export {
  type ComparisonReportContent,
  type ConductOfRun,
  comparisonReportContent,
  methodOfComparison,
  type PhotoOfComparison,
} from './documents/comparison-report/content.js';
export { type LabelSheetContent, labelSheetContent, type SpecimenLabel } from './documents/label-sheet/content.js';
export { LABEL_GRIDS, type LabelGrid } from './documents/label-sheet/grids.js';
export { type RunSheetContent, runSheetContent } from './documents/run-sheet/content.js';
export {
  type DisposalOfSpecimen,
  type PhotoOfSpecimen,
  type RunOfSpecimen,
  type SpecimenRecordContent,
  type StateOfSpecimen,
  specimenRecordContent,
} from './documents/specimen-record/content.js';
export { comparisonFigureOf } from './figures/comparison-input.js';
export { type LotPart, lotHistoriesOf, partsOf } from './figures/history-input.js';
export { probabilityPlotOf } from './figures/probability-input.js';
export { staircaseOf } from './figures/staircase-input.js';
export { marginStripOf } from './figures/strip-input.js';
export { type TraceOfRun, tracePlotOf } from './figures/trace-input.js';
export {
  isRecomputable,
  type RecomputableContent,
  type RecomputedDocument,
  recomputeDocument,
  runsIn,
  type ToRecompute,
} from './recompute/recompute-document.js';
export { type RecomputedFile, recomputeSignedFile } from './recompute/recompute-signed-file.js';
export { timeOf } from './words/dates.js';
export { LANGUAGES, type Language } from './words/language.js';
