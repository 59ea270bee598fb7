import { type CriterionOf, type CriterionResult, isNotEvaluated, type Step } from '@breakbook/lab';
import { meanLimits } from '@breakbook/statistics';
import { percent, theLimit, valueInWords } from '../../words/index.js';
import { answered, claimStep, limitOf, type Question, samplesFor, whyMissing, whyNotYet } from './question.js';

/**
 * Does the mean of the population lie within the limit? Met where its one-sided limits at the claimed confidence lie
 * inside; not met where they do not, the planned number being complete. Needs every value exactly: specimens that were
 * not broken have no mean.
 *
 * Source: Student (1908); Berger and Hsu (1996), as `meanLimits` has it.
 */
export function meanWithin(question: Question<CriterionOf<'mean'>>): CriterionResult {
  const { criterion, claim, limit, method } = question;
  const { unit, lower, upper } = limitOf(question);
  const samples = samplesFor(question);
  const exact = samples.sample.exact ?? [];
  const numbers: Record<string, number> = {
    planned: claim.planned,
    specimens: samples.n,
    confidence: criterion.confidence,
  };
  const steps: Step[] = [claimStep(question)];
  const open = (outcome: 'not yet decidable' | 'not evaluated', reasons: { because: string; possibleIf: string }) =>
    answered(question, { outcome, numbers, steps, ...reasons });

  if (!claim.complete) return open('not yet decidable', whyNotYet(question));
  const missing = whyMissing(samples);
  if (missing) return open('not evaluated', missing);
  if (exact.length < samples.n)
    return open('not evaluated', {
      because: `${samples.n - exact.length} of ${samples.n} values are known from one side only or between two, so they have no mean`,
      possibleIf: 'every value is known exactly',
    });
  if (samples.n < method.minimumSpecimens)
    return open('not evaluated', {
      because: `${method.method} rev. ${method.revision} prints no bound on fewer than ${method.minimumSpecimens} specimens, and the claim has ${samples.n}`,
      possibleIf: `the plan asks for at least ${method.minimumSpecimens} specimens`,
    });
  const found = meanLimits(exact, criterion.confidence);
  if (isNotEvaluated(found)) return open('not evaluated', found.notEvaluated);
  const met = (lower === undefined || found.lower >= lower) && (upper === undefined || found.upper <= upper);
  const printed = (value: number) =>
    valueInWords({ kind: 'exact', value }, unit, { limits: [lower, upper].filter((one) => one !== undefined) });
  const between = `${printed(found.lower)} and ${printed(found.upper)}`;
  steps.push(
    {
      question: 'Between what does the mean of the population lie?',
      numbers: { mean: found.mean, sd: found.sd, lower: found.lower, upper: found.upper },
      formula: 'mean -+ t(confidence; n - 1) s / sqrt n',
      source: 'Student (1908), Biometrika 6, 1-25',
      answer: `Above ${printed(found.lower)} and below ${printed(found.upper)}, each with ${percent(criterion.confidence)} confidence; the mean of the ${samples.n} is ${printed(found.mean)}. Assumed: values independent and normal.`,
    },
    {
      question: 'Does it lie within the limit?',
      numbers: {
        ...(lower === undefined ? {} : { 'lower limit': lower }),
        ...(upper === undefined ? {} : { 'upper limit': upper }),
      },
      answer: met
        ? `Yes: between ${between} all of ${theLimit(limit)} is kept.`
        : `No: ${theLimit(limit)} is not surely kept by a mean between ${between}. The planned number is complete, so more specimens cannot change this.`,
    },
  );
  return answered(question, {
    outcome: met ? 'met' : 'not met',
    numbers: { ...numbers, mean: found.mean, sd: found.sd, lower: found.lower, upper: found.upper },
    steps,
    ...(met ? {} : { because: `the mean may lie anywhere between ${between}, which is not within ${theLimit(limit)}` }),
  });
}
