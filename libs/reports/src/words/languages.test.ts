import { numeral, type PrintChoice } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import type { LotReportContent } from '../content/lot-report-content.js';
import { lotTestReport } from '../documents/lot-test-report/index.js';
import { inventedContent } from '../fixtures/invented-lot.js';
import { inStages, underEveryCriterion } from '../fixtures/planned-otherwise.js';
import { FORMS_IN, printingOf } from './printing.js';

const GERMAN: PrintChoice = { paper: 'A4', language: 'de', units: 'as kept' };
const holesOf = (form: string) => [...form.matchAll(/\{(\w+)\}/g)].map(([, hole]) => hole).sort();
const forms = Object.entries(FORMS_IN.de);

/** Lots that meet their plan, do not, and are undecided with everything that can happen to a run. */
const lots: [what: string, content: LotReportContent][] = [
  ['undecided, with every kind of run', inventedContent({ specimens: 9, mixed: true })],
  ['met', inventedContent({ specimens: 10 })],
  ['not met, not drawn by the lab', inventedContent({ specimens: 10, weakest: 1_000, sampled: false })],
  ['judged by criteria of every kind', inventedContent({ specimens: 10, change: underEveryCriterion })],
  ['judged so and not met', inventedContent({ specimens: 10, weakest: 1_400, change: underEveryCriterion })],
  ['judged so and not complete', inventedContent({ specimens: 9, mixed: true, change: underEveryCriterion })],
  ['tested in stages', inventedContent({ specimens: 10, weakest: 1_510, change: inStages })],
];

/** Every text of a document, in reading order; the marks of its figures are left out, whose words are in their captions. */
function textsOf(value: unknown): string[] {
  if (typeof value === 'string') return [value];
  if (Array.isArray(value)) return value.flatMap(textsOf);
  if (value === null || typeof value !== 'object') return [];
  return Object.entries(value).flatMap(([key, one]) =>
    NOT_SAID.includes(key) || (key === 'outcome' && typeof one === 'string') ? [] : textsOf(one),
  );
}

/** What a block is made of beside words. The word of an outcome stands beside its key in the head. */
const NOT_SAID = ['block', 'tone', 'sign', 'align', 'marks', 'words'];

const sheetTexts = (content: LotReportContent, print?: PrintChoice) =>
  textsOf(lotTestReport(print ? { ...content, print } : content));
const numbersIn = (text: string) => (text.replace(/[\u00a0\u202f]/g, '').match(/\d+(?:\.\d+)*/g) ?? []).sort();
const unquoted = (text: string) => text.replace(/„[^“]*“ \(englisch\)/g, '');

describe('the catalogue of a language', () => {
  it.each(forms)('has the holes of "%s"', (form, said) => {
    expect(holesOf(said)).toEqual(holesOf(form));
    expect(said.trim()).not.toBe('');
  });

  it('says none of its sentences in English', () => {
    const same = forms.filter(([form, said]) => form === said && /[a-z]{3,} [a-z]{3,}/.test(form));
    expect(same).toEqual([]);
  });
});

describe.each(lots)('a report in German of a lot that is %s', (_, content) => {
  const english = sheetTexts(content);
  if (english.length < 300) throw new Error('A report of this lot has more texts than that.');
  const german = sheetTexts(content, GERMAN);

  it('says as much as the English one, with the same numbers in every text', () => {
    expect(german).toHaveLength(english.length);
    const inEnglish = german.map((text) => text.replace(/(?<=\d),(?=\d)/g, '.'));
    english.forEach((text, index) => {
      // Numbers of sections and of standards are the same; lists of numbers have semicolons in German.
      expect(numbersIn(inEnglish[index] ?? ''), `${text} | ${german[index]}`).toEqual(
        numbersIn(text.replace(/(?<=\d),(?=\d)/g, '.')),
      );
    });
  });

  it('holds no English sentence of this program', () => {
    const all = unquoted(german.join('\n'));
    const pieces = forms
      .filter(([form, said]) => form !== said)
      .flatMap(([form]) => form.split(/\{\w+\}/))
      .filter((piece) => /[a-z]{2,} [a-z]{2,} [a-z]{2,}/.test(piece) && piece.length >= 18);
    expect(pieces.length).toBeGreaterThan(200);
    expect(pieces.filter((piece) => all.includes(piece))).toEqual([]);
  });

  it('quotes only what a check or a refusal of a file said', () => {
    const quotes = german.flatMap((text) => text.match(/„[^“]*“ \(englisch\)/g) ?? []);
    const said = JSON.stringify([content.readings.map(({ checks }) => checks), content.refused]);
    expect(quotes.filter((quote) => !said.includes(quote.slice(1, quote.lastIndexOf('“'))))).toEqual([]);
  });
});

describe('sentences that are kept without their data', () => {
  const { told } = printingOf({ print: GERMAN });

  it.each([
    ['BF-FLG (bead flange broke) came first', 'BF-FLG (bead flange broke) trat zuerst ein'],
    [
      'the specimen held 1 460 kPa and did not break there, while the limit asks for at least 1 500.5 kPa',
      'der Prüfling hielt 1 460 kPa und brach dort nicht; der Grenzwert verlangt mindestens 1 500,5 kPa',
    ],
    ['9 of 10 planned valid runs make the claim', '9 von 10 geplanten gültigen Versuchen tragen die Aussage'],
    ['no specimens', 'keine Prüflinge'],
    [
      'At least 99.9 % of the process holds 1 601 kPa or more, with 95 % confidence (10 specimens, 7 broken).',
      'Mindestens 99,9 % des Prozesses halten 1 601 kPa oder mehr, bei einem Vertrauensniveau von 95 % (10 Prüflinge, davon 7 gebrochen).',
    ],
  ])('are worded again: %s', (stored, said) => {
    expect(told(stored)).toBe(said);
  });

  it('are quoted where their form is not known', () => {
    expect(told('The fox ran off with record 7.')).toBe('„The fox ran off with record 7.“ (englisch)');
    expect(told('specimen 401 has no verdict: the fox ran off')).toBe(
      '„specimen 401 has no verdict: the fox ran off“ (englisch)',
    );
  });
});

describe('numbers', () => {
  // DIN 1333: comma before the decimals; groups of three digits apart by a space, as ISO 80000-1 has them.
  it('have a decimal comma in German, and their groups stay', () => {
    expect(numeral('1 842.5', 'de')).toBe('1 842,5');
    expect(numeral('1 842.5', 'en')).toBe('1 842.5');
  });
});
