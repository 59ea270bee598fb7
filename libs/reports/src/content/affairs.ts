import type { DispositionSheet, OldResult } from '@breakbook/lab';

/** What stands around a lot beside its judgement, as it stood when the report was made; a lot folder knows none of it. */
export interface ReportAffairs {
  nonconformities: DispositionSheet['nonconformities'];
  concessions: DispositionSheet['concessions'];
  retests: DispositionSheet['retests'];
  safetyFlags?: NonNullable<DispositionSheet['safetyFlags']>;
  keeping?: NonNullable<DispositionSheet['keeping']>;
  legalHolds?: NonNullable<DispositionSheet['legalHolds']>;
  /** Reports made before there were opinions have none. */
  opinions?: NonNullable<DispositionSheet['opinions']>;
  /** What old tables tell of the lot, each with the number of its table. */
  oldResults?: (OldResult & { table: number })[];
}
