import type { ReportIdentity } from '@breakbook/reports';

/** The first report of an evaluation: a draft that nobody has signed. */
export function reportIdentity(lot: string, evaluation: number, at: Date): ReportIdentity {
  return { number: `LTR-${lot}-${evaluation}`, revision: 1, issuedAt: at.toISOString(), signatures: [] };
}
