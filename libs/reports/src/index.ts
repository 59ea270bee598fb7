export { attachedJson, composeDocument, type DocumentContents, type Sealing } from './compose-document.js';
export type { ReportAffairs } from './content/affairs.js';
export type { JudgedLot } from './content/judged-lot.js';
export {
  type LotReportContent,
  lotReportContent,
  type ReportIdentity,
  type ReportSignature,
  type ReportTrace,
} from './content/lot-report-content.js';
export { marginStripOf } from './figures/strip-input.js';
export { type TraceOfRun, tracePlotOf } from './figures/trace-input.js';
export { weibullPlotOf } from './figures/weibull-input.js';
export { type RecomputedDocument, recomputeDocument, type ToRecompute } from './recompute-document.js';
export { LANGUAGES, type Language } from './words/language.js';
