import type { Language } from '@breakbook/lab';
import { ENGLISH } from './english.js';
import { GERMAN } from './german.js';

/** What a comparison report says in each language. */
export type Messages = typeof ENGLISH;

export const MESSAGES: Record<Language, Messages> = { en: ENGLISH, de: GERMAN };
