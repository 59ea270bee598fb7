import { isNotEvaluated, type Step } from '@breakbook/lab';
import { outlierScreen } from '../../hypotheses/outlier-screen.js';
import type { DecidedBound, DecidedTechnique } from './decided-bound.js';
import { type Decision, DOUBT } from './decision.js';
import type { PathCoverage } from './path-coverage.js';

/** With fewer batches little is known of how batches differ. */
const BATCHES_WANTED = 5;

const FORMED_BY: Record<DecidedTechnique, string> = {
  conditional: 'conditional technique for a Weibull sample',
  'noncentral-t': 'factor by noncentral t for a normal sample, of the logarithms where the distribution is lognormal',
  'order-statistic': 'order statistic, without a distribution',
  'hanson-koopmans': 'Hanson and Koopmans, without a distribution',
  'analysis-of-variance': 'analysis of variance between batches',
};

/** Each step of the path by the question it answers, with its numbers. */
export function stepsOf(decision: Decision, found: DecidedBound, coverages: readonly PathCoverage[]): Step[] {
  return [
    batchesStep(decision),
    ...outlierSteps(decision),
    ...agreementSteps(decision),
    ...distributionSteps(decision),
    {
      question: 'What strength does the bound give?',
      numbers: { bound: found.bound },
      answer: `By ${FORMED_BY[found.technique]}.`,
    },
    ...coverages.map(({ population, share, error, boundless }) => ({
      question: 'How often does a bound found by this whole path hold?',
      numbers: { 'confidence reached': share, 'simulation error': error, 'share without a bound': boundless },
      answer: `Simulated with ${population}; every test decided anew each time.`,
    })),
  ];
}

function batchesStep({ groups }: Decision): Step {
  const numbers = { batches: groups.length, specimens: groups.flat().length };
  const answer =
    groups.length === 1
      ? 'One. Nothing is known of how batches differ, so the claim is about this batch alone.'
      : groups.length < BATCHES_WANTED
        ? `${groups.length}. Fewer than ${BATCHES_WANTED} say little of how batches differ: the claim about other batches is weak.`
        : `${groups.length}.`;
  return { question: 'How many batches are there?', numbers, answer };
}

function outlierSteps({ groups, pooled }: Decision): Step[] {
  const screened = (values: readonly number[], where: string): Step => {
    const screen = outlierScreen(values, DOUBT);
    const question = `Does one value lie apart ${where}?`;
    if (isNotEvaluated(screen)) return { question, numbers: {}, answer: `Not asked: ${screen.notEvaluated.because}.` };
    const { statistic, critical, index, outlier } = screen;
    return {
      question,
      numbers: { statistic, critical, ...(outlier ? { value: values[index] as number } : {}) },
      answer: outlier
        ? 'Yes. It is to be looked into; it stays in the sample, since no value is left out for this alone.'
        : 'No.',
    };
  };
  const perBatch = groups.map((values, index) => screened(values, `in batch ${index + 1}`));
  return pooled && groups.length > 1 ? [...perBatch, screened(groups.flat(), 'among all values')] : perBatch;
}

function agreementSteps({ agreement, scatter }: Decision): Step[] {
  if (!agreement) return [];
  const { statistic, critical, p, alpha, same } = agreement;
  const steps: Step[] = [
    {
      question: 'Do the batches agree?',
      numbers: { statistic, critical, p, alpha },
      answer: same
        ? 'No difference was seen, so all values are taken as one sample.'
        : 'No. Scatter between batches enters the bound.',
    },
  ];
  if (scatter)
    steps.push({
      question: 'Do the batches scatter alike?',
      ...(isNotEvaluated(scatter)
        ? { numbers: {}, answer: `Not evaluated: ${scatter.notEvaluated.because}.` }
        : {
            numbers: { statistic: scatter.statistic, p: scatter.p },
            answer:
              scatter.p > DOUBT
                ? 'No difference was seen.'
                : 'No. The bound assumes one scatter in all batches and is in doubt: find out why they differ.',
          }),
    });
  return steps;
}

function distributionSteps({ pooled, explanations, distribution }: Decision): Step[] {
  if (!pooled) return [];
  return [
    {
      question: 'Which distribution explains the values?',
      numbers: Object.fromEntries(explanations.map((one) => [`${one.distribution} significance`, one.significance])),
      answer: distribution
        ? `${capital(distribution)}: the first of Weibull, normal and lognormal with an observed significance above ${DOUBT}.`
        : `None has an observed significance above ${DOUBT}, so no distribution is assumed.`,
    },
  ];
}

function capital(word: string): string {
  return word.charAt(0).toUpperCase() + word.slice(1);
}
