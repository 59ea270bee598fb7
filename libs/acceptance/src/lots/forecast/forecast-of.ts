import {
  type Criterion,
  type Distribution,
  type Forecast,
  isNotEvaluated,
  type NotEvaluated,
  notEvaluated,
  type PlanLine,
} from '@breakbook/lab';
import { seededGenerator } from '@breakbook/statistics';
import { counted, forecastSentence } from '../../words/index.js';
import { type Claim, resultIn } from '../claim.js';
import { combined } from '../combined.js';
import type { Question } from '../criteria/question.js';
import { type Look, looksOf, plannedAt } from '../look.js';
import { plausibleStrengths } from './strengths.js';
import { countedTests, type LookTest, strengthTests } from './tests.js';

const SEED = 1;
/** A Weibull bound takes longer, and a forecast is no bound. */
const REPLICATES = { strengths: 2000, weibull: 400, counts: 4000 };

/**
 * How likely is it that the runs still planned would meet the line, judged by those made? The remainder is drawn from
 * populations that the claim so far may have come from, again and again, and judged by the criteria, look by look.
 *
 * Strengths by the distribution that the plan declares (see `plausibleStrengths`); where none is, the number of specimens
 * that fail, by Jeffreys' prior and an urn to which each specimen seen is added. Undefined where nothing remains to be
 * made. A forecast is no verdict, and decides nothing.
 *
 * Source: Jeffreys (1961), Theory of Probability, 3rd ed., 3.1 (prior); Geisser (1993), Predictive Inference, chapter 3.
 */
export function forecastOf(
  questions: readonly Question[],
  line: PlanLine,
  claim: Claim,
  look: Look,
): Forecast | NotEvaluated | undefined {
  const looks = looksOf(line);
  const all = plannedAt(looks.at(-1) as Look);
  const remaining = all - claim.runs.length;
  if (remaining <= 0) return undefined;
  const other = questions.find(
    ({ criterion, limit }) => criterion.kind === 'response energy' || limit.characteristic !== line.characteristic,
  );
  if (other)
    return notEvaluated(
      `criterion ${other.criterion.criterion} is about something else than the value that the line is about`,
      'the line has no such criterion',
    );
  const later = looks.filter((one) => one.stage >= look.stage);
  const distribution = declaredBy(questions.map(({ criterion }) => criterion));
  const drawn =
    distribution === 'distribution-free'
      ? byCounts(questions, claim, later, line)
      : byStrengths(questions, claim, later, line, distribution);
  if (isNotEvaluated(drawn)) return drawn;
  const { probability, error } = drawn;
  return {
    remaining,
    probability,
    error,
    seed: SEED,
    replicates: drawn.replicates,
    assumptions: [drawn.assumption, 'the specimens still to be tested are drawn at random as those tested were'],
    sentence: forecastSentence({
      remaining,
      waiting: claim.waiting > 0,
      line: line.line,
      probability,
      made: claim.runs.length,
    }),
  };
}

function declaredBy(criteria: readonly Criterion[]): Distribution {
  for (const criterion of criteria)
    if (criterion.kind === 'tolerance bound' && criterion.distribution !== 'distribution-free')
      return criterion.distribution;
  return criteria.some(({ kind }) => kind === 'mean') ? 'normal' : 'distribution-free';
}

interface Drawn {
  probability: number;
  error: number;
  replicates: number;
  assumption: string;
}

function byStrengths(
  questions: readonly Question[],
  claim: Claim,
  later: readonly Look[],
  line: PlanLine,
  distribution: Exclude<Distribution, 'distribution-free'>,
): Drawn | NotEvaluated {
  const found: number[] = [];
  for (const run of claim.runs) {
    const value = resultIn(run, line.characteristic)?.value;
    if (!value || isNotEvaluated(value) || value.kind !== 'exact')
      return notEvaluated(
        `specimen ${run.run.specimen} gave no exact value, and what others will give cannot be drawn from such`,
        'every value so far is known exactly',
      );
    found.push(value.value);
  }
  // A sum taken in another order ends in other last digits, and a forecast must not hang on the order of the specimens.
  const values = found.sort((a, b) => a - b);
  if (distribution !== 'normal' && values.some((value) => value <= 0))
    return notEvaluated(
      `a value of 0 or less cannot come from a ${distribution} distribution`,
      'the value is corrected',
    );
  const tests = strengthTests(questions, later);
  if (isNotEvaluated(tests)) return tests;
  const plausible = plausibleStrengths(values, distribution, seededGenerator(SEED));
  if (isNotEvaluated(plausible)) return plausible;
  const replicates = distribution === 'weibull' ? REPLICATES.weibull : REPLICATES.strengths;
  const drawn: { weight: number; met: boolean }[] = [];
  for (let replicate = 0; replicate < replicates; replicate++) {
    const { draw, weight } = plausible.population();
    drawn.push({ weight, met: isMet(values, draw, later, tests, line) });
  }
  const all = drawn.reduce((sum, { weight }) => sum + weight, 0);
  const probability = drawn.reduce((sum, { weight, met }) => sum + (met ? weight : 0), 0) / all;
  const squares = drawn.reduce((sum, { weight, met }) => sum + (weight * ((met ? 1 : 0) - probability)) ** 2, 0);
  return { probability, error: Math.sqrt(squares) / all, replicates, assumption: plausible.assumption };
}

function byCounts(
  questions: readonly Question[],
  claim: Claim,
  later: readonly Look[],
  line: PlanLine,
): Drawn | NotEvaluated {
  if (
    questions.some(
      ({ criterion, plan, earlier }) =>
        criterion.kind === 'tolerance bound' && plan.claim.pooling !== 'none' && earlier.length > 0,
    )
  )
    return notEvaluated(
      'whether earlier lots would be pooled hangs on the strengths still to come, and no distribution is declared to draw them from',
      'the plan declares a distribution, or pools no lots',
    );
  const counts = countedTests(questions, claim, later);
  if (isNotEvaluated(counts)) return counts;
  const { tests, failing, open } = counts;
  if (open > 0)
    return notEvaluated(
      `${counted(open, 'specimen')} of the claim ${open === 1 ? 'has' : 'have'} no verdict`,
      'each has one',
    );
  const { uniform } = seededGenerator(SEED);
  let met = 0;
  for (let replicate = 0; replicate < REPLICATES.counts; replicate++) {
    let [failed, tested] = [failing, claim.runs.length];
    const next = () => {
      const fails = uniform() < (failed + 0.5) / (tested + 1);
      tested++;
      if (fails) failed++;
      return fails ? 1 : 0;
    };
    const soFar = claim.runs.map((_, index) => (index < failing ? 1 : 0));
    if (isMet(soFar, next, later, tests, line)) met++;
  }
  const replicates = REPLICATES.counts;
  const probability = met / replicates;
  return {
    probability,
    error: Math.sqrt((probability * (1 - probability)) / replicates),
    replicates,
    assumption: 'specimens fail independently, each as likely, by what was seen so far and Jeffreys’ prior',
  };
}

/** Is the line met at one of the looks still to come, by what was seen and what is drawn? */
function isMet(
  seen: readonly number[],
  next: () => number,
  later: readonly Look[],
  tests: readonly LookTest[],
  line: PlanLine,
): boolean {
  const values = [...seen];
  for (const look of later) {
    while (values.length < plannedAt(look)) values.push(next());
    const outcome = combined(
      tests.map((test) => test(values, look)),
      line,
    );
    if (outcome !== 'undecided') return outcome === 'meets the plan';
  }
  return false;
}
