import type { Limit, Method, Plan, PlanRisks } from '@breakbook/lab';
import { planRiskSentence } from '../../words/index.js';
import { criterionRisk } from './criterion-risk.js';
import { lineTogether } from './line-together.js';

export interface PlanToWeigh {
  plan: Plan;
  methods: readonly Pick<Method, 'method' | 'revision' | 'minimumSpecimens'>[];
  limits: readonly Limit[];
  /** Units in the lot, once it is known. */
  lotSize?: number | undefined;
}

/**
 * What does a plan risk? For each criterion how often a lot passes, by the share of it that lies below the limit, and how
 * often one just at the edge of the claim; for stages the confidence of the whole schedule; for each line all of its
 * criteria together, as far as can be said.
 */
export function planRisks({ plan, methods, limits, lotSize }: PlanToWeigh): PlanRisks {
  const lines = plan.lines.map((line) => {
    const method = methods.find((one) => one.method === line.method && one.revision === line.methodRevision);
    const criteria = line.criteria.map((criterion) =>
      criterionRisk({
        criterion,
        limit: limits.find((one) => one.limit === criterion.limit.limit && one.revision === criterion.limit.revision),
        line,
        plan,
        least: method?.minimumSpecimens ?? 1,
        lotSize,
      }),
    );
    return {
      line: line.line,
      title: line.title,
      specimens: line.specimens,
      criteria,
      together: lineTogether(line, criteria),
    };
  });
  return {
    plan: plan.plan,
    revision: plan.revision,
    ...(lotSize === undefined ? {} : { lotSize }),
    lines,
    sentence: planRiskSentence(lines),
  };
}
