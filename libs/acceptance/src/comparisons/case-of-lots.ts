import {
  type ComparedRun,
  type ComparedSpecimen,
  type ComparisonCase,
  type ComparisonDocument,
  itemsOf,
  knownOf,
  type LotBundle,
  type Problem,
  Refusal,
} from '@breakbook/lab';
import type { LotEvaluation } from '../lots/evaluate-lot.js';

export interface EvaluatedLot {
  bundle: Pick<LotBundle, 'lot' | 'specimens'>;
  evaluation: Pick<LotEvaluation, 'runs' | 'refused'>;
}

/**
 * What a comparison rests on, from its document and the lots as they were read and judged. Results enter as the
 * examination left them, whatever a limit says of them; which runs count is for the comparison.
 *
 * Throws a `Refusal` where a run could not be read: a comparison without it would be another one.
 */
export function caseOfLots(document: ComparisonDocument, lots: readonly EvaluatedLot[]): ComparisonCase {
  const unread = lots.flatMap(({ bundle, evaluation }) =>
    evaluation.refused.flatMap(({ run, unread }) =>
      unread.map(
        (problem): Problem => ({
          ...problem,
          detail: `lot ${bundle.lot.lot}, run ${run.run}: ${problem.detail}`,
        }),
      ),
    ),
  );
  if (unread.length > 0) throw new Refusal(unread);
  const specimens = lots.flatMap(({ bundle }) => bundle.specimens.map(comparedSpecimen));
  const { alternative } = document;
  const members = new Set([
    ...itemsOf({ ...document, specimens }),
    ...knownOf({ ...document, specimens }),
    ...(alternative?.units ?? []).map(({ specimen }) => specimen),
  ]);
  return {
    ...document,
    // What stands beside them in their lots is no part of this comparison, and may be somebody else's.
    specimens: specimens.filter(({ specimen }) => members.has(specimen)),
    runs: lots.flatMap(({ bundle, evaluation }) =>
      evaluation.runs.flatMap((one) => (members.has(one.run.specimen) ? comparedRun(bundle.lot.lot, one) : [])),
    ),
  };
}

function comparedSpecimen({ specimen, lot, serial, origin }: LotBundle['specimens'][number]): ComparedSpecimen {
  return { specimen, lot, origin, ...(serial === undefined ? {} : { serial }) };
}

/** A run as a comparison takes it. */
export function comparedRun(
  lot: string,
  { run, judgement }: Pick<LotEvaluation['runs'][number], 'run' | 'judgement'>,
): ComparedRun {
  return {
    run: run.run,
    specimen: run.specimen,
    lot,
    ...(run.rig === undefined ? {} : { rig: run.rig }),
    method: run.method,
    methodRevision: run.methodRevision,
    startedAt: run.startedAt,
    validity: run.validity?.validity ?? 'not decided',
    results: judgement.results,
  };
}
