import { type LimitRef, type LotResult, limitName, type RunJudgement, type Verdict } from '@breakbook/lab';

/** A limit that something of the lot fails, and what does. */
export interface Failure {
  limit: LimitRef;
  external: boolean;
  /** Runs with a failed verdict on it, in their order. */
  runs: string[];
  /** Criteria on it that are not met. */
  criteria: string[];
}

/** The cautious side: what does not conform conditionally is taken for a failure by whoever decides about a lot. */
export function isFailed({ outcome }: Pick<Verdict, 'outcome'>): boolean {
  return outcome === 'does not conform' || outcome === 'does not conform conditionally';
}

/**
 * Which limits does the lot fail: by a criterion that is not met, or by a verdict on any valid run, also one that makes no
 * claim? A valid failure stands wherever it was found.
 */
export function failuresOf(result: LotResult, judgements: readonly RunJudgement[]): Failure[] {
  const failures = new Map<string, Failure>();
  const on = (limit: LimitRef, external: boolean): Failure => {
    const known = failures.get(limitName(limit));
    if (known) return known;
    const made: Failure = { limit, external, runs: [], criteria: [] };
    failures.set(limitName(limit), made);
    return made;
  };
  for (const { run, verdicts } of judgements)
    for (const one of verdicts.filter(isFailed)) on(one.limit, one.external).runs.push(run);
  for (const { criteria } of result.lines)
    for (const one of criteria.filter(({ outcome }) => outcome === 'not met'))
      on(one.limit, one.external).criteria.push(one.criterion);
  return [...failures.values()];
}
