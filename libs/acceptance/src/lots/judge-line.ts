import {
  type ClaimEntry,
  type CriterionOutcome,
  type CriterionResult,
  isNotEvaluated,
  type Limit,
  type LineResult,
  type Lot,
  type LotOutcome,
  limitName,
  type Method,
  type NotEvaluated,
  notEvaluated,
  type Plan,
  type PlanLine,
  Refusal,
  type Specimen,
  type WeibullSummary,
} from '@breakbook/lab';
import { fitWeibull, summary } from '@breakbook/statistics';
import { counted } from '../words/index.js';
import { type Claim, claimOf, type JudgedRun, type UnreadRun } from './claim.js';
import { everySpecimen } from './criteria/every-specimen.js';
import { type Question } from './criteria/question.js';
import { toleranceBound } from './criteria/tolerance-bound.js';
import { zeroFailures } from './criteria/zero-failures.js';
import { type ClaimSample, sampleOf } from './samples.js';

/** Two-sided confidence of the shape's limits beside the Weibull fit, which describes and decides nothing. */
const SHAPE_CONFIDENCE = 0.95;

export interface LineToJudge {
  line: PlanLine;
  plan: Plan;
  lot: Lot;
  methods: readonly Method[];
  limits: readonly Limit[];
  specimens: readonly Specimen[];
  /** All runs of the lot, in the order recorded. */
  runs: readonly (JudgedRun | UnreadRun)[];
}

/** What a plan line came to, with the claim it rests on. */
export interface JudgedLine {
  result: LineResult;
  claim: Claim;
}

/** Does the lot meet this line of the plan? Criteria combine by all. */
export function judgeLine({ line, plan, lot, methods, limits, specimens, runs }: LineToJudge): JudgedLine {
  const method = methods.find((one) => one.method === line.method && one.revision === line.methodRevision);
  if (!method) throw unknownIn(plan, `method ${line.method} rev. ${line.methodRevision}`, line);
  const characteristic = method.characteristics.find((one) => one.characteristic === line.characteristic);
  if (!characteristic) throw unknownIn(plan, `characteristic ${line.characteristic}`, line);

  const claim = claimOf(line, runs, specimens);
  const criteria = line.criteria.map((criterion) => {
    const limit = limits.find(
      (one) => one.limit === criterion.limit.limit && one.revision === criterion.limit.revision,
    );
    if (!limit) throw unknownIn(plan, limitName(criterion.limit), line);
    return judgeCriterion({ criterion, limit, plan, lot, method, claim });
  });
  const sample = sampleOf(claim.runs, line.characteristic);
  return {
    claim,
    result: {
      line: line.line,
      characteristic: line.characteristic,
      title: characteristic.title,
      unit: characteristic.unit,
      planned: line.specimens,
      counts: countsOf(line, runs, claim.entries),
      entries: claim.entries,
      weibull: weibullOf(sample, method),
      summary: summaryOf(sample),
      criteria,
      outcome: combined(criteria.map(({ outcome }) => outcome)),
    },
  };
}

function judgeCriterion(question: Question): CriterionResult {
  const { criterion } = question;
  switch (criterion.kind) {
    case 'every specimen':
      return everySpecimen({ ...question, criterion });
    case 'tolerance bound':
      return toleranceBound({ ...question, criterion });
    case 'zero failures':
      return zeroFailures({ ...question, criterion });
  }
}

/** Met when all are met, not met when any is not, undecided otherwise. */
export function combined(outcomes: readonly CriterionOutcome[]): LotOutcome {
  if (outcomes.includes('not met')) return 'does not meet the plan';
  return outcomes.every((outcome) => outcome === 'met') ? 'meets the plan' : 'undecided';
}

function countsOf(
  line: PlanLine,
  runs: readonly (JudgedRun | UnreadRun)[],
  entries: readonly ClaimEntry[],
): LineResult['counts'] {
  const validities = runs
    .filter(({ run }) => run.planLine === line.line)
    .map((one) => {
      if (one.run.validity?.validity === 'void') return 'void';
      return 'judgement' in one ? one.judgement.validity : 'not decided';
    });
  const count = (validity: (typeof validities)[number]) => validities.filter((one) => one === validity).length;
  return {
    runs: validities.length,
    valid: count('valid'),
    withDeviation: count('valid with deviation'),
    invalid: count('invalid'),
    notDecided: count('not decided'),
    void: count('void'),
    inClaim: entries.filter(({ inClaim }) => inClaim).length,
  };
}

function weibullOf({ sample, n, missing }: ClaimSample, method: Method): WeibullSummary | NotEvaluated {
  const absent = withoutAll(missing);
  if (absent) return absent;
  if (n < method.minimumSpecimens)
    return notEvaluated(
      `not estimable from ${counted(n, 'specimen')}: ${method.method} rev. ${method.revision} asks for at least ${method.minimumSpecimens}`,
      `at least ${method.minimumSpecimens} specimens make the claim`,
    );
  const values = [...(sample.exact ?? []), ...(sample.atMost ?? []), ...(sample.between ?? []).flat()];
  if (values.some((value) => value <= 0) || (sample.atLeast ?? []).some((value) => value < 0))
    return notEvaluated(
      'a value of 0 or less cannot come from a Weibull distribution',
      'the value is found to be recorded wrongly',
    );
  const fit = fitWeibull(sample, { confidence: SHAPE_CONFIDENCE });
  if (isNotEvaluated(fit)) return fit;
  const [low, high] = fit.limits.shape;
  const shapeLimits: WeibullSummary['shapeLimits'] = isNotEvaluated(low)
    ? low
    : isNotEvaluated(high)
      ? high
      : [low, high];
  return {
    n: fit.n,
    failures: fit.failures,
    shape: fit.shape,
    scale: fit.scale,
    shapeLimits,
    confidence: SHAPE_CONFIDENCE,
  };
}

function summaryOf({ sample, n, missing }: ClaimSample): LineResult['summary'] {
  const absent = withoutAll(missing);
  if (absent) return absent;
  const exact = sample.exact ?? [];
  if (exact.length < n)
    return notEvaluated(
      `${n - exact.length} of ${n} values are known from one side only or between two, so they have no mean`,
      'every value is known exactly',
    );
  const described = summary(exact);
  if (isNotEvaluated(described)) return described;
  if (isNotEvaluated(described.sd)) return described.sd;
  return { n, mean: described.mean, sd: described.sd, min: described.min, max: described.max };
}

function withoutAll(missing: ClaimSample['missing']): NotEvaluated | undefined {
  const [first] = missing;
  return first && notEvaluated(`run ${first.run} of the claim gives no value: ${first.because}`, first.possibleIf);
}

function unknownIn(plan: Plan, what: string, line: PlanLine): Refusal {
  return new Refusal({
    code: 'meta.unknown',
    detail: `Plan ${plan.plan} rev. ${plan.revision} names ${what} in line ${line.line}, which is not there. Add it, or have a plan revision name another.`,
  });
}
