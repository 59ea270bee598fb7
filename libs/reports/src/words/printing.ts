import { countedIn, FORMS, type Form, type Noun } from '@breakbook/acceptance';
import type { FigureForm, FigureLanguage } from '@breakbook/figures';
import { type Catalogue, type Language, numeral, type PrintChoice, type Say, sayer } from '@breakbook/lab';
import { GERMAN } from './german.js';
import { GERMAN_WORDS } from './german-words.js';
import { type PrintedUnits, printedUnits } from './printed-units.js';
import { retold } from './retold.js';

/** Every form of words that a document prints. A language is one file for each room that words sentences, and a line here. */
export type ReportForm = keyof typeof GERMAN | Form | FigureForm;
export type ReportSay = Say<ReportForm>;

/** The forms of every room that words sentences, in each language but English, whose forms are their names. */
export const FORMS_IN: Readonly<Record<Exclude<Language, 'en'>, Catalogue<ReportForm>>> = {
  de: { ...FORMS.de, ...GERMAN },
};

/** How a document is printed: its words, its numbers and its units. */
export interface Printing {
  language: Language;
  say: ReportSay;
  counted: (number: number, noun: Noun) => string;
  /** A printed number as the language writes it. */
  number: (printed: string) => string;
  /**
   * A sentence that was stored in English with the judgement, in the language of the document: worded again where its form
   * is known, in quotation marks where it is not.
   */
  told: (stored: string) => string;
  /** A name that this program gave, such as that of a channel or a moment of a record. */
  named: (name: string) => string;
  /** A word that a person wrote or chose, such as a condition: worded where it is one that many tests have, else as entered. */
  entered: (word: string) => string;
  units: PrintedUnits;
  figures: FigureLanguage;
}

export function printingOf({ print }: { print?: PrintChoice | undefined }): Printing {
  const language = print?.language ?? 'en';
  return { ...WORDS[language], units: printedUnits(print?.units ?? 'as kept') };
}

function wordsIn(language: Language): Omit<Printing, 'units'> {
  const say = sayer(language, FORMS_IN);
  const number = (printed: string) => numeral(printed, language);
  const known = language === 'en' ? undefined : retold(language, FORMS_IN[language]);
  return {
    language,
    say,
    counted: (count, noun) => countedIn(language, count, noun),
    number,
    told: known ? known.sentence : (stored) => stored,
    named: known ? known.name : (name) => name,
    entered: (word) => (language === 'en' ? word : (ENTERED[language][word] ?? word)),
    figures: { say, numeral: number },
  };
}

const ENTERED: Readonly<Record<Exclude<Language, 'en'>, Readonly<Record<string, string>>>> = { de: GERMAN_WORDS };

const WORDS: Readonly<Record<Language, Omit<Printing, 'units'>>> = { en: wordsIn('en'), de: wordsIn('de') };

/** English, in the units kept: what is printed where nothing else was chosen. */
export const PLAIN: Printing = printingOf({});
