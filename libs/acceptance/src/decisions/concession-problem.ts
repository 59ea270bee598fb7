import {
  type Concession,
  isExternal,
  type Limit,
  type LotBundle,
  type LotResult,
  limitName,
  type Problem,
  type RunJudgement,
} from '@breakbook/lab';
import { isFailed } from './failures.js';

export interface ConcessionToCheck {
  concession: Concession;
  bundle: Pick<LotBundle, 'plan' | 'limits' | 'lot'>;
  /** The lot's last evaluation; left out where it was never evaluated. */
  evaluation?: { result: LotResult; judgements: readonly RunJudgement[] } | undefined;
  /** Today in the lab's zone. */
  today: string;
}

/**
 * May this be asked for and granted? A limit that comes from outside and stands in the plan bears on the claimed use, and
 * is never conceded; a concession is leave after a failure, so that there must be one; a permit is leave before it.
 * Answers what stands in the way, or undefined.
 *
 * Sources: the lab's own rule for external limits; ISO 9000:2015, 3.12.5 and 3.12.6, from memory, for the two kinds.
 */
export function concessionProblem({ concession, bundle, evaluation, today }: ConcessionToCheck): Problem | undefined {
  const { limit: ref, kind, bounds, until, lot } = concession;
  if (until < today)
    return {
      code: 'body.range',
      pointer: '/until',
      found: until,
      detail: `/until: ${until} is over. A ${kind} holds until a day to come.`,
    };
  if ('quantity' in bounds && bounds.quantity > bundle.lot.size)
    return {
      code: 'body.range',
      pointer: '/bounds/quantity',
      found: `${bounds.quantity}`,
      detail: `/bounds/quantity: lot ${lot} has ${bundle.lot.size} units, so a ${kind} for ${bounds.quantity} has no bound.`,
    };
  if (ref === undefined) return undefined;
  const limit = inPlan(bundle, ref);
  if (!limit)
    return {
      code: 'body.not-found',
      pointer: '/limit',
      found: limitName(ref),
      detail: `/limit: plan ${bundle.plan.plan} rev. ${bundle.plan.revision} sets lot ${lot} against no limit ${limitName(ref)}. Name one of its limits.`,
    };
  if (isExternal(limit))
    return {
      code: 'state.conflict',
      pointer: '/limit',
      found: limitName(ref),
      detail: `${limitName(ref)} comes from outside (${limit.basis}: ${limit.source}) and bears on the claimed use, ${bundle.plan.claim.use}. A failed external limit is never conceded: whoever rides relies on it, and it is not this lab's to give away.`,
      action:
        'Do not accept the lot, or drop the claim by a new revision of the plan, proposed and approved by two people, and have the lot evaluated under it.',
    };
  const failed = failsOn(limit, evaluation);
  if (kind === 'concession' && !failed)
    return {
      code: 'state.conflict',
      pointer: '/limit',
      found: limitName(ref),
      detail: `Nothing of lot ${lot} was found not to conform to ${limitName(ref)}, so there is nothing to concede.`,
      action: 'Have the lot evaluated first, or ask for a deviation permit where it is to depart beforehand.',
    };
  if (kind === 'deviation permit' && failed)
    return {
      code: 'state.conflict',
      pointer: '/limit',
      found: limitName(ref),
      detail: `Lot ${lot} was found not to conform to ${limitName(ref)} already; a permit is given before, not after.`,
      action: 'Ask for a concession.',
    };
  return undefined;
}

function inPlan(
  { plan, limits }: ConcessionToCheck['bundle'],
  ref: { limit: string; revision: number },
): Limit | undefined {
  const named = plan.lines.some((line) => line.limits.some((one) => same(one, ref)));
  return named ? limits.find((one) => same(one, ref)) : undefined;
}

function failsOn(limit: Limit, evaluation: ConcessionToCheck['evaluation']): boolean {
  if (!evaluation) return false;
  return (
    evaluation.judgements.some(({ verdicts }) => verdicts.some((one) => isFailed(one) && same(one.limit, limit))) ||
    evaluation.result.lines.some(({ criteria }) =>
      criteria.some((one) => one.outcome === 'not met' && same(one.limit, limit)),
    )
  );
}

function same(one: { limit: string; revision: number }, other: { limit: string; revision: number }): boolean {
  return one.limit === other.limit && one.revision === other.revision;
}
