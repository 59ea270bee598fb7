import { type Catalogue, type Language, numeral, type Say, sayer } from '@breakbook/lab';
import { GERMAN, GERMAN_NOUNS } from './german.js';

/** Every form in which this room words a sentence for documents. */
export type Form = keyof typeof GERMAN;
export type Noun = keyof typeof GERMAN_NOUNS;

/** The forms of this room in each language but English, whose forms are their names. */
export const FORMS: Readonly<Record<Exclude<Language, 'en'>, Catalogue<Form>>> = { de: GERMAN };
export const NOUNS: Readonly<
  Record<Exclude<Language, 'en'>, Readonly<Record<Noun, readonly [one: string, several: string]>>>
> = { de: GERMAN_NOUNS };

const SAYERS: Readonly<Record<Language, Say<Form>>> = { en: sayer('en', FORMS), de: sayer('de', FORMS) };

export function sayIn(language: Language): Say<Form> {
  return SAYERS[language];
}

/** A number as a sentence holds it: not grouped, decimals by language. */
export function plain(value: number | string, language: Language): string {
  return numeral(String(value), language);
}
