import {
  type CriterionOf,
  type CriterionOutcome,
  isNotEvaluated,
  type NotEvaluated,
  notEvaluated,
} from '@breakbook/lab';
import {
  meanLimits,
  normalToleranceFactor,
  orderStatisticRank,
  summary,
  toleranceConfidence,
  zeroFailureSize,
} from '@breakbook/statistics';
import { isFailed } from '../../decisions/failures.js';
import { type Claim, resultIn } from '../claim.js';
import { pooler } from '../criteria/pooled-sample.js';
import { byVerdict, guardBandOf, limitOf, lotSizeOf, type Question, verdictOn } from '../criteria/question.js';
import { raisedLoad } from '../criteria/raised-demonstration.js';
import { type Look, lookConfidence, plannedAt } from '../look.js';

/** What a criterion would say of so many values, in order, when this look is taken. */
export type LookTest = (values: readonly number[], look: Look) => CriterionOutcome;

/** The criteria of a line on strengths that are all known exactly. */
export function strengthTests(questions: readonly Question[], looks: readonly Look[]): LookTest[] | NotEvaluated {
  const tests = questions.map((question) => strengthTest(question, looks));
  const unfit = tests.find(isNotEvaluated);
  return unfit ?? (tests as LookTest[]);
}

function strengthTest(question: Question, looks: readonly Look[]): LookTest | NotEvaluated {
  const { criterion, claim } = question;
  const { lower = -Infinity, upper = Infinity } = limitOf(question);
  switch (criterion.kind) {
    case 'tolerance bound':
      return boundTest({ ...question, criterion }, looks, lower);
    case 'mean':
      return (values, look) => {
        const limits = meanLimits(values, criterion.confidence);
        return !isNotEvaluated(limits) && limits.lower >= lower && limits.upper <= upper ? 'met' : ended(look);
      };
    case 'response energy':
      return notEvaluated('a series of strikes is not forecast', 'the line has no such criterion');
    default: {
      // The guard band of specimens to come is taken to be the widest so far.
      const band = Math.max(0, ...claim.runs.map((run) => guardBandOf(question, run) ?? 0));
      const raised = criterion.kind === 'zero failures' ? criterion.raised : undefined;
      const [from, to] = raised ? [raisedLoad(raised, lower) + band, Infinity] : [lower + band, upper - band];
      const count = countTest(question, looks);
      if (isNotEvaluated(count)) return count;
      return (values, look) => count(values.filter((value) => value < from || value > to).length, look);
    }
  }
}

function boundTest(
  question: Question & { criterion: CriterionOf<'tolerance bound'> },
  looks: readonly Look[],
  limit: number,
): LookTest {
  const { criterion } = question;
  const [first] = looks;
  const { perStage } = lookConfidence({ sizes: (first as Look).sizes }, criterion);
  const pooled = pooler(question);
  const clears = clearing(question, perStage, limit);
  return (values, look) => (clears(pooled(values)) ? 'met' : ended(look));
}

/** Does the bound of so many strengths, at this confidence, lie at or above the limit? */
function clearing(
  question: Question & { criterion: CriterionOf<'tolerance bound'> },
  confidence: number,
  limit: number,
): (values: readonly number[]) => boolean {
  const { coverage, distribution } = question.criterion;
  switch (distribution) {
    case 'weibull':
      return (values) => {
        const found = toleranceConfidence(
          { exact: [...values] },
          { coverage, strength: limit, distribution, coarse: true },
        );
        return !isNotEvaluated(found) && found.confidence >= confidence;
      };
    case 'distribution-free': {
      const rankOf = once((n: number) => {
        const found = orderStatisticRank({ n, coverage, confidence, lotSize: lotSizeOf(question) });
        return isNotEvaluated(found) ? 0 : found.rank;
      });
      return (values) => values.filter((value) => value < limit).length < rankOf(values.length);
    }
    default: {
      const factorOf = once((n: number) => normalToleranceFactor({ n, coverage, confidence }).k);
      const scaled = distribution === 'lognormal' ? Math.log : (value: number) => value;
      return (values) => {
        const described = summary(values.map((value) => scaled(value)));
        if (isNotEvaluated(described) || isNotEvaluated(described.sd)) return false;
        return described.mean - factorOf(values.length) * described.sd >= scaled(limit);
      };
    }
  }
}

/** Factors and ranks hang on the number of specimens alone. */
function once(found: (n: number) => number): (n: number) => number {
  const known = new Map<number, number>();
  return (n) => {
    const before = known.get(n) ?? found(n);
    known.set(n, before);
    return before;
  };
}

function ended({ last }: Look): CriterionOutcome {
  return last ? 'not met' : 'not yet decidable';
}

/** By the number of specimens that fail alone. */
function countTest(
  question: Question,
  looks: readonly Look[],
): ((failing: number, look: Look) => CriterionOutcome) | NotEvaluated {
  const { criterion } = question;
  switch (criterion.kind) {
    case 'every specimen':
      return (failing) => (failing > 0 ? 'not met' : 'met');
    case 'failures at most':
      return (failing, look) => {
        const rule = criterion.looks?.[look.stage - 1] ?? { accept: criterion.allowed, reject: criterion.allowed + 1 };
        if (failing >= rule.reject) return 'not met';
        return failing <= rule.accept ? 'met' : 'not yet decidable';
      };
    case 'zero failures': {
      const { raised, reliability, confidence } = criterion;
      const needed = zeroFailureSize({
        reliability: raised ? reliability ** (raised.loadRatio ** raised.shape) : reliability,
        confidence,
        lotSize: raised ? undefined : lotSizeOf(question),
      });
      if (isNotEvaluated(needed)) return needed;
      return (failing, look) => {
        if (failing > 0) return 'not met';
        return plannedAt(look) >= needed.n ? 'met' : ended(look);
      };
    }
    case 'tolerance bound': {
      const { coverage } = criterion;
      const { perStage } = lookConfidence({ sizes: (looks[0] as Look).sizes }, criterion);
      const ranks = new Map(
        looks.map((look) => {
          const found = orderStatisticRank({
            n: plannedAt(look),
            coverage,
            confidence: perStage,
            lotSize: lotSizeOf(question),
          });
          return [look.stage, isNotEvaluated(found) ? 0 : found.rank];
        }),
      );
      return (failing, look) => (failing < (ranks.get(look.stage) as number) ? 'met' : ended(look));
    }
    default:
      return notEvaluated(
        `criterion ${criterion.criterion} is not decided by counting`,
        'the line declares a distribution',
      );
  }
}

/** The criteria of a line that hang on one number: how many specimens of the claim fail one limit. */
export function countedTests(
  questions: readonly Question[],
  claim: Claim,
  looks: readonly Look[],
): { tests: LookTest[]; failing: number; open: number } | NotEvaluated {
  const [first] = questions;
  if (!first) return notEvaluated('the line has no criterion', 'the plan gives it one');
  const other = questions.find(
    ({ limit }) => limit.limit !== first.limit.limit || limit.revision !== first.limit.revision,
  );
  if (other)
    return notEvaluated(
      'the criteria are about more than one limit, and no distribution declared in the plan joins them',
      'the plan declares a distribution for one of them',
    );
  const tests: LookTest[] = [];
  for (const question of questions) {
    const count = countTest(question, looks);
    if (isNotEvaluated(count)) return count;
    tests.push((values, look) =>
      count(
        values.reduce((sum, one) => sum + one, 0),
        look,
      ),
    );
  }
  const { open } = byVerdict(first);
  const failing = claim.runs.filter((run) => {
    const verdict = verdictOn(first, run);
    return verdict !== undefined && isFailed(verdict);
  }).length;
  const bounds = questions.filter(({ criterion }) => criterion.kind === 'tolerance bound');
  if (bounds.length === 0 || open.length > 0) return { tests, failing, open: open.length };
  const below = belowLimit(first);
  if (below !== failing && bounds.length < questions.length)
    return notEvaluated(
      'a specimen above the limit and within its guard band fails the one criterion and not the other, which one count cannot tell',
      'the plan declares a distribution for one of them',
    );
  return { tests, failing: below, open: 0 };
}

/** Bounds know no guard band: specimens whose value lies below the limit itself, or, known from one side, fails it. */
function belowLimit(question: Question): number {
  const { lower = -Infinity } = limitOf(question);
  return question.claim.runs.filter((run) => {
    const value = resultIn(run, question.limit.characteristic)?.value;
    if (value && !isNotEvaluated(value) && value.kind === 'exact') return value.value < lower;
    const verdict = verdictOn(question, run);
    return verdict !== undefined && isFailed(verdict);
  }).length;
}
