/** The service: HTTP around the lab's records. */
export { loadArithmetic } from './arithmetic.js';
export { importComparison } from './comparisons/import-comparison.js';
export { evaluateAndKeep, evaluateStored, type StoredEvaluation } from './evaluations/evaluate-stored-lot.js';
export { prepareJobs } from './jobs/job-schema.js';
export { hasLot, importLot, labOf } from './lots/import-lot.js';
export { storedLot } from './lots/lot-bundle.js';
export { type CallerQuotas, USUAL_QUOTAS } from './quotas/quotas.js';
export { recordRun } from './runs/record-run.js';
export { type FirstPassphrase, giveFirstPassphrases, resetPassphrase } from './sign-in/first-passphrases.js';
export { type RunningService, type ServiceOptions, startService } from './start.js';
export { UPLOAD_BOUNDS } from './uploads/bounds.js';
export type { SentRunFile } from './workers/run-to-read.js';
