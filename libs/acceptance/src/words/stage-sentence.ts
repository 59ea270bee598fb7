import type { Language, StageResult } from '@breakbook/lab';
import { countedIn } from './counted.js';
import { boundInWords } from './numbers.js';
import { percent } from './percent.js';
import { sayIn } from './say.js';

/** What one look of a declared schedule said: how far it was made, and each criterion at it. */
export function stageSentence(
  found: Omit<StageResult, 'sentence'>,
  of: number,
  unit: string,
  language: Language = 'en',
): string {
  const say = sayIn(language);
  const { stage, planned, inClaim, complete, criteria } = found;
  const made = say('Stage {stage} of {of}: {made} of {specimens} in the claim', {
    stage,
    of,
    made: inClaim,
    specimens: countedIn(language, planned, 'specimen'),
  });
  if (!complete) return say('{made}; it is not complete, so nothing is looked at yet.', { made });
  const said = criteria.map(({ criterion, outcome, bound, perStageConfidence, failures }) => {
    const numbers = [
      ...(bound === undefined ? [] : [say('bound {bound}', { bound: boundInWords(bound, unit, [], language) })]),
      ...(perStageConfidence === undefined
        ? []
        : [
            say('at {confidence} confidence at this look', {
              confidence: percent(Number(perStageConfidence.toFixed(4)), language),
            }),
          ]),
      ...(failures === undefined ? [] : [countedIn(language, failures, 'failure')]),
    ];
    const is = say('{criterion} is {outcome}', { criterion, outcome: say(outcome) });
    return `${is}${numbers.length > 0 ? ` (${numbers.join(' ')})` : ''}`;
  });
  return `${made}; ${said.join('; ')}.`;
}
