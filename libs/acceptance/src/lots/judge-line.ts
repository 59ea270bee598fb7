import {
  type ClaimEntry,
  type CriterionResult,
  type EarlierSample,
  type Limit,
  type LineResult,
  type Lot,
  type LotOutcome,
  limitName,
  type Method,
  type Plan,
  type PlanLine,
  Refusal,
  type Specimen,
  type StageResult,
} from '@breakbook/lab';
import { stageSentence } from '../words/index.js';
import { type Claim, claimOf, type JudgedRun, type UnreadRun } from './claim.js';
import { combined } from './combined.js';
import { judgeCriterion } from './criteria/judge-criterion.js';
import type { Question } from './criteria/question.js';
import { forecastOf } from './forecast/forecast-of.js';
import { type Look, looksOf, plannedAt } from './look.js';
import { outliersOf } from './outliers.js';
import { summaryOf, weibullOf } from './sample-figures.js';
import { sampleOf } from './samples.js';

export interface LineToJudge {
  line: PlanLine;
  plan: Plan;
  lot: Lot;
  methods: readonly Method[];
  limits: readonly Limit[];
  specimens: readonly Specimen[];
  /** All runs of the lot, in the order recorded. */
  runs: readonly (JudgedRun | UnreadRun)[];
  /** What earlier lots gave, in any order. */
  earlier?: readonly EarlierSample[] | undefined;
}

/** What a plan line came to, with the claim it rests on. */
export interface JudgedLine {
  result: LineResult;
  claim: Claim;
}

/**
 * Does the lot meet this line of the plan? The criteria are looked at when the number planned is complete: once, or, where
 * stages were declared, after each stage until the line is met or failed. No other look is taken: one more for every
 * specimen would accept bad lots too often.
 */
export function judgeLine(given: LineToJudge): JudgedLine {
  const { line, plan, methods, runs, specimens } = given;
  const method = methods.find((one) => one.method === line.method && one.revision === line.methodRevision);
  if (!method) throw unknownIn(plan, `method ${line.method} rev. ${line.methodRevision}`, line);
  const characteristic = method.characteristics.find((one) => one.characteristic === line.characteristic);
  if (!characteristic) throw unknownIn(plan, `characteristic ${line.characteristic}`, line);

  const stages: StageResult[] = [];
  let seen: { look: Look; claim: Claim; questions: Question[]; criteria: CriterionResult[]; outcome: LotOutcome };
  const looks = looksOf(line);
  let next = 0;
  do {
    const look = looks[next++] as Look;
    const claim = claimOf({ ...line, specimens: plannedAt(look) }, plan, runs, specimens);
    const questions = questionsOf(given, method, claim, look);
    const criteria = questions.map(judgeCriterion);
    seen = {
      look,
      claim,
      questions,
      criteria,
      outcome: combined(
        criteria.map(({ outcome }) => outcome),
        line,
      ),
    };
    stages.push(stageOf(seen, characteristic.unit));
  } while (seen.outcome === 'undecided' && seen.claim.complete && !seen.look.last);

  const { claim, questions, criteria, outcome } = seen;
  const sample = sampleOf(claim.runs, line.characteristic);
  const outliers = outliersOf(questions, line, claim, characteristic.unit);
  const forecast = outcome === 'undecided' ? forecastOf(questions, line, claim, seen.look) : undefined;
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
      ...(outliers.length > 0 ? { outliers } : {}),
      ...(line.stages ? { stages } : {}),
      ...(forecast ? { forecast } : {}),
      outcome,
    },
  };
}

function questionsOf(
  { line, plan, lot, limits, earlier = [] }: LineToJudge,
  method: Method,
  claim: Claim,
  look: Look,
): Question[] {
  const lots = earlier
    .filter(
      (one) =>
        one.lot !== lot.lot &&
        one.line === line.line &&
        one.method === method.method &&
        one.methodRevision === method.revision &&
        one.madeTo < lot.madeTo,
    )
    .sort((a, b) => (a.madeTo < b.madeTo ? 1 : a.madeTo > b.madeTo ? -1 : a.lot < b.lot ? 1 : -1));
  return line.criteria.map((criterion) => {
    const limit = limits.find(
      (one) => one.limit === criterion.limit.limit && one.revision === criterion.limit.revision,
    );
    if (!limit) throw unknownIn(plan, limitName(criterion.limit), line);
    return { criterion, limit, plan, lot, method, claim, look, earlier: lots };
  });
}

function stageOf(
  seen: { look: Look; claim: Claim; criteria: CriterionResult[]; outcome: LotOutcome },
  unit: string,
): StageResult {
  const { look, claim, criteria, outcome } = seen;
  const found = {
    stage: look.stage,
    planned: plannedAt(look),
    inClaim: claim.runs.length,
    complete: claim.complete,
    criteria: criteria.map((one) => ({
      criterion: one.criterion,
      outcome: one.outcome,
      ...(one.bound ? { bound: one.bound.value } : {}),
      ...(typeof one.numbers['confidence of this look'] === 'number'
        ? { perStageConfidence: one.numbers['confidence of this look'] }
        : {}),
      ...(typeof one.numbers.failures === 'number' ? { failures: one.numbers.failures } : {}),
    })),
    outcome,
  };
  return { ...found, sentence: stageSentence(found, look.sizes.length, unit) };
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

function unknownIn(plan: Plan, what: string, line: PlanLine): Refusal {
  return new Refusal({
    code: 'meta.unknown',
    detail: `Plan ${plan.plan} rev. ${plan.revision} names ${what} in line ${line.line}, which is not there. Add it, or have a plan revision name another.`,
  });
}
