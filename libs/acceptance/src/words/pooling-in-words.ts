import type { Language, Pooling } from '@breakbook/lab';
import { countedIn } from './counted.js';
import { percent } from './percent.js';
import { sayIn } from './say.js';

/** Whether and how earlier lots enter a bound, as the plan declared it. */
export function poolingInWords(pooling: Pooling, language: Language = 'en'): string {
  const say = sayIn(language);
  if (pooling === 'none') return say('none');
  return say(
    'up to {lots} of the same method revision, where the {test} test does not tell them apart at the {level} level; a shift of the mean by {shift} would matter',
    {
      lots: countedIn(language, pooling.lots, 'earlier lot'),
      test: pooling.test,
      level: percent(pooling.level, language),
      shift: percent(pooling.shiftThatMatters, language),
    },
  );
}
