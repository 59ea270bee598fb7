import type { Criterion, CriterionResult, Step } from '@breakbook/lab';
import { printDeclared } from '@breakbook/units';
import { counted, listed, percent, theLimit } from '../../words/index.js';
import { chanceAllConform } from '../chance-all-conform.js';
import { answered, byVerdict, claimStep, lotSizeOf, type Question, whyNotYet, whyOpen } from './question.js';

/** Shares of bad units for which the chance to pass is printed. */
const POOR_SHARES = [0.05, 0.1, 0.2] as const;

/**
 * Does every specimen of the claim conform to this limit? A failure settles it at once; that all conform is said only
 * when the planned number is complete. It claims no confidence, so it prints how often a poor lot would pass.
 */
export function everySpecimen(question: Question<Extract<Criterion, { kind: 'every specimen' }>>): CriterionResult {
  const { claim, limit } = question;
  const { conforming, failing, open } = byVerdict(question);
  const numbers = {
    planned: claim.planned,
    tested: claim.runs.length,
    conforming: conforming.length,
    'not conforming': failing.length,
    'not evaluated': open.length,
  };
  const failed = listed(failing.map(({ run }) => run.specimen));
  const steps: Step[] = [
    claimStep(question),
    {
      question: 'Does each of them conform?',
      numbers,
      answer:
        failing.length > 0
          ? `Not conforming to ${theLimit(limit)}: ${failed}.`
          : `${conforming.length} of ${claim.runs.length} conform to ${theLimit(limit)}.`,
    },
    passingStep(question),
  ];

  if (failing.length > 0)
    return answered(question, {
      outcome: 'not met',
      numbers,
      steps,
      because: `${counted(failing.length, 'specimen')} of the claim (${failed}) ${failing.length === 1 ? 'does' : 'do'} not conform to ${theLimit(limit)}`,
    });
  if (!claim.complete)
    return answered(question, { outcome: 'not yet decidable', numbers, steps, ...whyNotYet(question) });
  if (open.length > 0)
    return answered(question, { outcome: 'not evaluated', numbers, steps, ...whyOpen(question, open) });
  return answered(question, { outcome: 'met', numbers, steps });
}

function passingStep(question: Question): Step {
  const { planned } = question.claim;
  const lotSize = lotSizeOf(question);
  const chances = POOR_SHARES.map((share) => [share, chanceAllConform(planned, share, lotSize)] as const);
  return {
    question: 'How often would a poor lot pass?',
    numbers: Object.fromEntries(chances.map(([share, chance]) => [`${percent(share)} not conforming`, chance])),
    answer: `No confidence is claimed. With ${counted(planned, 'specimen')} tested, ${chances
      .map(
        ([share, chance]) =>
          `a ${question.plan.claim.population} with ${percent(share)} not conforming passes with probability ${printDeclared(Number(chance.toFixed(2)))}`,
      )
      .join('; ')}.`,
  };
}
