import type { CriterionOf, CriterionResult, Step } from '@breakbook/lab';
import { countScheduleChance } from '@breakbook/statistics';
import { printDeclared } from '@breakbook/units';
import { counted, listed, percent, theLimit } from '../../words/index.js';
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

/** Shares of bad units for which the chance to pass is printed. */
const POOR_SHARES = [0.05, 0.1, 0.2] as const;

/**
 * Do no more specimens of the claim fail this limit than are allowed? Too many failures settle it at once; that they are
 * few enough is said only when the number planned for the stage is complete. It claims no confidence, and prints how
 * often a poor lot would pass the whole schedule.
 *
 * Source: attribute plans by counts, single and multiple, ISO 2859-1:1999, 11.1.
 */
export function failuresAtMost(question: Question<CriterionOf<'failures at most'>>): CriterionResult {
  const { criterion, claim, limit, look } = question;
  const { conforming, failing, open } = byVerdict(question);
  const rule = criterion.looks?.[look.stage - 1] ?? { accept: criterion.allowed, reject: criterion.allowed + 1 };
  const numbers = {
    planned: claim.planned,
    tested: claim.runs.length,
    conforming: conforming.length,
    failures: failing.length,
    'not evaluated': open.length,
    'accepted up to': rule.accept,
    'rejected from': rule.reject,
  };
  const failed = failing.length === 0 ? '' : ` (${listed(failing.map(({ run }) => run.specimen))})`;
  const steps: Step[] = [
    claimStep(question),
    {
      question: 'How many of them fail?',
      numbers,
      answer: `${failing.length} of ${claim.runs.length} fail ${theLimit(limit)}${failed}; up to ${rule.accept} are accepted, from ${rule.reject} on the lot is not.`,
    },
    passingStep(question),
  ];
  if (failing.length >= rule.reject)
    return answered(question, {
      outcome: 'not met',
      numbers,
      steps,
      because: `${counted(failing.length, 'specimen')} of the claim${failed} fail ${theLimit(limit)}, and ${rule.reject} are too many`,
    });
  if (!claim.complete)
    return answered(question, { outcome: 'not yet decidable', numbers, steps, ...whyNotYet(question) });
  if (failing.length + open.length > rule.accept && open.length > 0)
    return answered(question, { outcome: 'not evaluated', numbers, steps, ...whyOpen(question, open) });
  if (failing.length > rule.accept)
    return answered(question, {
      outcome: 'not yet decidable',
      numbers,
      steps,
      ...whyNextStage(question, `${counted(failing.length, 'failure')} lie between ${rule.accept} and ${rule.reject}`),
    });
  return answered(question, { outcome: 'met', numbers, steps });
}

function passingStep(question: Question<CriterionOf<'failures at most'>>): Step {
  const { criterion, look, plan } = question;
  const lotSize = lotSizeOf(question);
  const schedule = look.sizes.map((size, index) => ({
    adds: size - (look.sizes[index - 1] ?? 0),
    ...(criterion.looks?.[index] ?? { accept: criterion.allowed, reject: criterion.allowed + 1 }),
  }));
  const chances = POOR_SHARES.map(
    (share) => [share, countScheduleChance(schedule, share, { lotSize }).acceptance] as const,
  );
  return {
    question: 'How often would a poor lot pass?',
    numbers: Object.fromEntries(chances.map(([share, chance]) => [`${percent(share)} failing`, chance])),
    formula: 'P(failures up to the accepted number), followed from stage to stage',
    source: 'ISO 2859-1:1999, 11.1; Dodge and Romig (1929)',
    answer: `No confidence is claimed. ${chances
      .map(
        ([share, chance]) =>
          `A ${plan.claim.population} with ${percent(share)} failing passes with probability ${printDeclared(Number(chance.toFixed(2)))}`,
      )
      .join('; ')}.`,
  };
}
