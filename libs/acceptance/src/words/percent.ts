import { type Language, numeral } from '@breakbook/lab';
import { printChance, printPercent, printShare } from '@breakbook/units';
import { type Form, sayIn } from './say.js';

/** A share as people write it: `90 %`. */
export function percent(fraction: number, language: Language = 'en'): string {
  return numeral(printPercent(fraction), language);
}

export function chanceInWords(chance: number, language: Language = 'en'): string {
  return worded(printChance(chance), language);
}

export function shareInWords(share: number, language: Language = 'en'): string {
  return worded(printShare(share), language);
}

/** Printed shares are numbers, or one of few words before or instead of one. */
function worded(printed: string, language: Language): string {
  const say = sayIn(language);
  const [, side, number = printed] = /^(less|more) than (.*)$/.exec(printed) ?? [];
  const share = numeral(number, language);
  if (side) return say(side === 'less' ? 'less than {share}' : 'more than {share}', { share });
  const words: readonly Form[] = ['never', 'always', 'none'];
  const word = words.find((one) => one === printed) as 'never' | 'always' | 'none' | undefined;
  return word === undefined ? share : say(word);
}
