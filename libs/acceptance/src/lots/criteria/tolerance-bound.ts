import {
  type Criterion,
  type CriterionResult,
  isNotEvaluated,
  type NotEvaluated,
  notEvaluated,
  type Sample,
  type Step,
} from '@breakbook/lab';
import { type LowerToleranceBound, lowerToleranceBound } from '@breakbook/statistics';
import {
  boundInWords,
  boundSentence,
  counted,
  limitInWords,
  listed,
  percent,
  theLimit,
  valueInWords,
} from '../../words/index.js';
import { type LookConfidence, lookConfidence } from '../look.js';
import { failuresIn } from '../samples.js';
import { pooledSample, poolingSteps } from './pooled-sample.js';
import {
  answered,
  claimStep,
  limitOf,
  lotSizeOf,
  type Question,
  samplesFor,
  whyMissing,
  whyNextStage,
  whyNotYet,
} from './question.js';

type ToleranceBound = Question<Extract<Criterion, { kind: 'tolerance bound' }>>;

/** A bound on which acceptance may rest, with the confidence it reaches. */
type Bound = LowerToleranceBound & { achievedConfidence: number };

/**
 * Does the lower tolerance bound of the claim clear the limit? The bound is computed once, when the planned number is
 * complete, and is met where it lies at or above the limit, not met where it lies below. Measurement uncertainty is not
 * added to it: specimen scatter and measurement uncertainty are reported apart.
 */
export function toleranceBound(question: ToleranceBound): CriterionResult {
  const { criterion, limit, claim, method, look } = question;
  const { unit, lower } = limitOf(question);
  const samples = samplesFor(question);
  const { sample, allModes, n, otherModes } = samples;
  const failures = failuresIn(sample);
  const numbers = {
    planned: claim.planned,
    specimens: n,
    broken: failures,
    'held without breaking': n - failures,
    coverage: criterion.coverage,
    confidence: criterion.confidence,
  };
  const steps: Step[] = [claimStep(question)];
  const open = (outcome: 'not yet decidable' | 'not evaluated', reasons: { because: string; possibleIf: string }) =>
    answered(question, { outcome, numbers, steps, ...reasons });

  if (lower === undefined || limit.bound !== 'at least')
    return open('not evaluated', {
      because: `a lower bound says what specimens hold, and ${limitInWords(limit)} is no limit of that kind`,
      possibleIf: 'the criterion names an "at least" limit',
    });
  if (!claim.complete) return open('not yet decidable', whyNotYet(question));
  const absent = whyMissing(samples);
  if (absent) return open('not evaluated', absent);
  if (n < method.minimumSpecimens)
    return open('not evaluated', {
      because: `${method.method} rev. ${method.revision} prints no bound on fewer than ${method.minimumSpecimens} specimens, and the claim has ${n}`,
      possibleIf: `the plan asks for at least ${method.minimumSpecimens} specimens`,
    });

  steps.push({
    question: 'How do values known from one side enter?',
    numbers: {
      exact: sample.exact?.length ?? 0,
      'at least': sample.atLeast?.length ?? 0,
      'at most': sample.atMost?.length ?? 0,
      between: sample.between?.length ?? 0,
    },
    answer:
      otherModes.length > 0
        ? `Other modes (${listed(otherModes)}) on a sound part enter as at least the value reached; the modes are assumed to act independently.`
        : failures === n
          ? 'Every specimen broke at a value known exactly or between two.'
          : `${counted(n - failures, 'specimen')} held without breaking and enter${n - failures === 1 ? 's' : ''} as at least the value reached.`,
  });

  const level = lookConfidence(look, criterion);
  if (look.sizes.length > 1) steps.push(scheduleStep(question, level));
  const pooled = pooledSample(question, sample);
  if (pooled) steps.push(...poolingSteps(pooled.finding));
  const bound = boundOf(question, pooled?.sample ?? sample, level.perStage);
  if (isNotEvaluated(bound)) return open('not evaluated', bound.notEvaluated);
  const allModesBound = allModes && boundOf(question, allModes, level.perStage);
  const boundAllModes =
    allModesBound && (isNotEvaluated(allModesBound) ? allModesBound : { value: allModesBound.bound });

  const met = bound.bound >= lower;
  steps.push(...boundSteps(question, bound, { unit, lower, met }));
  if (boundAllModes)
    steps.push({
      question: 'And if every mode counted as a failure?',
      numbers: isNotEvaluated(boundAllModes) ? {} : { bound: boundAllModes.value },
      answer: isNotEvaluated(boundAllModes)
        ? `Not evaluated: ${boundAllModes.notEvaluated.because}.`
        : `The bound would be ${boundInWords(boundAllModes.value, unit, [lower])}. It stands beside the claim and does not decide.`,
    });

  const goesOn = !met && !look.last;
  const below = `the lower bound, ${boundInWords(bound.bound, unit, [lower])}, lies below ${theLimit(limit)}`;
  return answered(question, {
    outcome: met ? 'met' : goesOn ? 'not yet decidable' : 'not met',
    numbers: {
      ...numbers,
      ...(look.sizes.length === 1 ? {} : { stage: look.stage, 'confidence of this look': level.perStage }),
      ...(bound.factor === undefined ? {} : { factor: bound.factor }),
      ...(bound.rank === undefined ? {} : { rank: bound.rank }),
      population: bound.population,
    },
    steps,
    bound: {
      value: bound.bound,
      estimate: bound.estimate,
      coverage: criterion.coverage,
      confidence: criterion.confidence,
      technique: bound.technique,
      achievedConfidence: bound.achievedConfidence,
    },
    ...(boundAllModes ? { boundAllModes } : {}),
    ...(pooled ? { pooled: pooled.finding } : {}),
    ...(met ? {} : goesOn ? whyNextStage(question, below) : { because: below }),
  });
}

/** The bound of a sample by the plan's distribution, if acceptance may rest on it. */
function boundOf(question: ToleranceBound, sample: Sample, confidence: number): Bound | NotEvaluated {
  const { coverage, distribution } = question.criterion;
  const positiveOnly = distribution === 'weibull' || distribution === 'lognormal';
  if (positiveOnly && !allPositive(sample))
    return notEvaluated(
      `a value of 0 or less cannot come from a ${distribution} distribution`,
      'the plan declares another distribution, or the value is found to be recorded wrongly',
    );
  const lotSize = lotSizeOf(question);
  const bound = lowerToleranceBound({ sample, coverage, confidence, distribution, lotSize });
  if (isNotEvaluated(bound)) return bound;
  const { achievedConfidence } = bound;
  if (isNotEvaluated(achievedConfidence)) return achievedConfidence;
  if (!bound.forAcceptance)
    return notEvaluated(
      `the technique ${bound.technique} serves for comparison only`,
      'the plan declares a distribution with an exact bound for this sample',
    );
  return { ...bound, achievedConfidence };
}

function allPositive({ exact = [], atLeast = [], atMost = [], between = [] }: Sample): boolean {
  return [...exact, ...atMost, ...between.flat()].every((value) => value > 0) && atLeast.every((value) => value >= 0);
}

function boundSteps(
  { criterion, limit, look }: ToleranceBound,
  bound: Bound,
  { unit, lower, met }: { unit: string; lower: number; met: boolean },
): Step[] {
  return [
    {
      question: `What is the strength that ${percent(criterion.coverage)} exceed, as best estimated?`,
      numbers: { estimate: bound.estimate },
      answer: `${valueInWords({ kind: 'exact', value: bound.estimate }, unit)}, ${bound.distribution === 'weibull' ? 'Weibull' : bound.distribution} distribution (technique: ${bound.technique}).`,
    },
    {
      question: 'What can be said of it with confidence?',
      numbers: {
        bound: bound.bound,
        'confidence asked': criterion.confidence,
        'confidence reached': bound.achievedConfidence,
        ...(bound.factor === undefined ? {} : { factor: bound.factor }),
        ...(bound.rank === undefined ? {} : { rank: bound.rank }),
      },
      answer: `${boundSentence({
        bound: bound.bound,
        unit,
        coverage: criterion.coverage,
        confidence: criterion.confidence,
        population: bound.population,
        n: bound.n,
        failures: bound.failures,
        limit: lower,
      })} Assumed: ${bound.assumptions.join('; ')}.`,
    },
    {
      question: 'Does the bound clear the limit?',
      numbers: { bound: bound.bound, limit: lower, difference: bound.bound - lower },
      answer: met
        ? `Yes: it lies at or above ${theLimit(limit)}. Measurement uncertainty is reported apart and not added.`
        : look.last
          ? `No: it lies below ${theLimit(limit)}. The planned number is complete, so more specimens cannot change this.`
          : `Not at this look: it lies below ${theLimit(limit)}. Another stage was declared before the test.`,
    },
  ];
}

/** How a schedule of looks keeps the confidence that the plan claims. */
function scheduleStep({ criterion, look }: ToleranceBound, level: LookConfidence): Step {
  return {
    question: 'At which confidence is the bound taken, so that all looks together keep what is claimed?',
    numbers: {
      stage: look.stage,
      stages: look.sizes.length,
      'confidence of each look': level.perStage,
      'kept by the schedule': level.overall,
      'kept without this': level.unadjusted,
    },
    source:
      'one level for all looks, Pocock (1977), Biometrika 64, 191-199, applied to tolerance bounds; complete samples',
    answer: `Looks after ${look.sizes.join(', ')} specimens, each at ${percent(Number(level.perStage.toFixed(4)))} confidence, keep ${percent(criterion.confidence)} together. Without this they would keep ${percent(Number(level.unadjusted.toFixed(3)))}.`,
  };
}
