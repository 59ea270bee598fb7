import type { CriterionResult, Language, LotOutcome } from '@breakbook/lab';
import { nameOfLimit } from './limit-in-words.js';
import { sayIn } from './say.js';

/** The outcome in one sentence, with the first reason of each criterion that stands in the way. */
export function lotSentence(
  {
    lot,
    plan: named,
    outcome,
    criteria,
  }: {
    lot: string;
    plan: { plan: string; revision: number };
    outcome: LotOutcome;
    criteria: readonly Pick<CriterionResult, 'criterion' | 'outcome' | 'because'>[];
  },
  language: Language = 'en',
  reworded: (because: string) => string = (because) => because,
): string {
  const say = sayIn(language);
  const plan = nameOfLimit({ limit: named.plan, revision: named.revision }, language);
  const reasons = (wanted: (outcome: string) => boolean) =>
    criteria
      .filter((one) => wanted(one.outcome))
      .map((one) =>
        say('criterion {criterion} is {outcome}: {because}', {
          criterion: one.criterion,
          outcome: say(one.outcome),
          because: reworded(one.because ?? ''),
        }),
      )
      .join('; ');
  switch (outcome) {
    case 'meets the plan':
      return say('Lot {lot} meets plan {plan}: {met}.', { lot, plan, met: howManyMet(criteria.length, language) });
    case 'does not meet the plan':
      return say('Lot {lot} does not meet plan {plan}: {reasons}.', {
        lot,
        plan,
        reasons: reasons((one) => one === 'not met'),
      });
    case 'undecided':
      return say('Lot {lot} is undecided under plan {plan}: {reasons}.', {
        lot,
        plan,
        reasons: reasons((one) => one !== 'met'),
      });
  }
}

function howManyMet(n: number, language: Language): string {
  const say = sayIn(language);
  if (n === 1) return say('its one criterion is met');
  return n === 2 ? say('both criteria are met') : say('all {n} criteria are met', { n });
}
