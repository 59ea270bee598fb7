import { type CriterionOf, type CriterionResult, isNotEvaluated, type Step } from '@breakbook/lab';
import { zeroFailureBound, zeroFailureSize } from '@breakbook/statistics';
import { counted, listed, percent, survivalSentence, theLimit } from '../../words/index.js';
import {
  answered,
  byVerdict,
  claimStep,
  lotSizeOf,
  type Question,
  whyNextStage,
  whyNotYet,
  whyOpen,
} from './question.js';
import { raisedDemonstration } from './raised-demonstration.js';

/**
 * Do enough specimens survive the limit, and none fails, to show that this share of the population does? A specimen
 * survives where its verdict on the limit is "conforms", guard band included. One failure settles it at once; survival
 * is said only when the planned number is complete, and then shows what that number can show and no more.
 */
export function zeroFailures(question: Question<CriterionOf<'zero failures'>>): CriterionResult {
  const { criterion, claim, limit, method, plan } = question;
  if (criterion.raised) return raisedDemonstration(question, criterion.raised);
  const { reliability, confidence } = criterion;
  const { conforming, failing, open } = byVerdict(question);
  const lotSize = lotSizeOf(question);
  const size = zeroFailureSize({ reliability, confidence, lotSize });
  const needed = isNotEvaluated(size) ? undefined : size.n;
  const numbers: Record<string, number | string> = {
    planned: claim.planned,
    survivors: conforming.length,
    failures: failing.length,
    'not evaluated': open.length,
    reliability,
    confidence,
    ...(needed === undefined ? {} : { needed }),
    ...(lotSize === undefined ? {} : { 'lot size': lotSize }),
  };
  const steps: Step[] = [
    claimStep(question),
    {
      question: 'How many survivors does the claim need?',
      numbers: { reliability, confidence, ...(needed === undefined ? {} : { needed }) },
      answer: isNotEvaluated(size)
        ? `Not evaluated: ${size.notEvaluated.because}.`
        : `${counted(size.n, 'specimen')} without a failure, for ${percent(reliability)} of the ${plan.claim.population}${lotSize === undefined ? '' : ` of ${lotSize}`} with ${percent(confidence)} confidence.`,
    },
  ];

  if (failing.length > 0) {
    const failed = listed(failing.map(({ run }) => run.specimen));
    return answered(question, {
      outcome: 'not met',
      numbers,
      steps,
      because: `none may fail, and ${counted(failing.length, 'specimen')} of the claim (${failed}) ${failing.length === 1 ? 'does' : 'do'} not conform to ${theLimit(limit)}`,
    });
  }
  if (!claim.complete) {
    const { because, possibleIf } = whyNotYet(question);
    const tooFew =
      needed !== undefined && needed > claim.planned
        ? `; the plan asks for ${claim.planned}, too few for a claim that needs ${needed} survivors`
        : '';
    return answered(question, {
      outcome: 'not yet decidable',
      numbers,
      steps,
      because: `${because}${tooFew}`,
      possibleIf,
    });
  }
  if (open.length > 0)
    return answered(question, { outcome: 'not evaluated', numbers, steps, ...whyOpen(question, open) });
  if (isNotEvaluated(size))
    return answered(question, { outcome: 'not evaluated', numbers, steps, ...size.notEvaluated });
  if (conforming.length < method.minimumSpecimens)
    return answered(question, {
      outcome: 'not evaluated',
      numbers,
      steps,
      because: `${method.method} rev. ${method.revision} prints no bound on fewer than ${method.minimumSpecimens} specimens, and the claim has ${conforming.length}`,
      possibleIf: `the plan asks for at least ${method.minimumSpecimens} specimens`,
    });

  const shown = zeroFailureBound(conforming.length, confidence, { lotSize });
  if (isNotEvaluated(shown))
    return answered(question, { outcome: 'not evaluated', numbers, steps, ...shown.notEvaluated });
  const met = conforming.length >= size.n;
  if (!met && !question.look.last)
    return answered(question, {
      outcome: 'not yet decidable',
      numbers,
      steps,
      ...whyNextStage(question, `${counted(conforming.length, 'survivor')} of ${size.n} needed, and none failed`),
    });
  steps.push({
    question: 'What do the survivors show?',
    numbers: { survivors: conforming.length, 'reliability shown': shown.reliability, confidence },
    answer: survivalSentence({
      reliability: shown.reliability,
      confidence,
      population: plan.claim.population,
      survivors: conforming.length,
      limit,
    }),
  });
  return answered(question, {
    outcome: met ? 'met' : 'not met',
    numbers: { ...numbers, 'reliability shown': shown.reliability },
    steps,
    ...(met
      ? {}
      : {
          because: `${counted(conforming.length, 'survivor')} cannot show it: ${size.n} are needed, and the planned number is complete`,
        }),
  });
}
