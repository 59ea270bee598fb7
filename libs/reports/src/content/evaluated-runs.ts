import type { LotEvaluation } from '@breakbook/acceptance';
import type { LineResult, LotResult } from '@breakbook/lab';

/** Runs as read and judged, and where they stand in the claims of their lot: of an evaluation, all that a sheet needs. */
export interface EvaluatedRuns extends Pick<LotEvaluation, 'runs' | 'refused'> {
  result: Pick<LotResult, 'software'> & { lines: readonly Pick<LineResult, 'entries'>[] };
}
