import type { ReportIdentity } from './lot-report-content.js';

/** Which document it is, and who stands behind it. Every kind has one. */
export type DocumentIdentity = ReportIdentity;
