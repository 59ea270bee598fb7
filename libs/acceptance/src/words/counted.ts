import type { Language } from '@breakbook/lab';
import { NOUNS, type Noun, sayIn } from './say.js';

/** `1 specimen`, `8 specimens`, `no specimens`. */
export function counted(number: number, noun: string): string {
  return `${number === 0 ? 'no' : number} ${noun}${number === 1 ? '' : 's'}`;
}

/** The same in a language, of what documents count. */
export function countedIn(language: Language, number: number, noun: Noun): string {
  if (language === 'en') return counted(number, noun).replace('criterions', 'criteria');
  const [one, several] = NOUNS[language][noun];
  if (number === 1) return `1 ${one}`;
  return `${number === 0 ? 'keine' : number} ${several}`;
}

/** Up to six names, and how many more there are. */
export function listed(all: readonly string[], language: Language = 'en'): string {
  const names = all.slice(0, 6).join(', ');
  const rest = all.length - 6;
  return rest <= 0 ? names : sayIn(language)('{names} and {rest} more', { names, rest });
}
