import type { PrintChoice } from '@breakbook/lab';
import { beforeAll, describe, expect, it } from 'vitest';
import { needs, told } from '../../../tests/tools.js';
import { composeDocument } from './compose-document.js';
import { inventedContent } from './fixtures/invented-lot.js';
import { FORMS_IN } from './words/printing.js';

/** Reports in German as another tool reads them back: the file says its language, and no sentence of ours is English. */

const plain = (text: string) =>
  text
    .replace(/[\u00a0\u202f]/g, ' ')
    .replace(/-\n(?=[a-z])/g, '-')
    .replace(/\s+/g, ' ');
const cases: PrintChoice[] = [
  { paper: 'A4', language: 'de', units: 'as kept' },
  { paper: 'Letter', language: 'de', units: { pressure: 'bar', mass: '[oz_av]', temperature: '[degF]' } },
];

describe.each(cases)('a report in German on $paper', (print) => {
  const content = { ...inventedContent({ specimens: 8, mixed: true }), print };
  let bytes: Uint8Array;
  beforeAll(async () => {
    bytes = await composeDocument('lot test report', content);
  });

  it('is the same on the paper that is named beside its content', async () => {
    const { print: _, ...unchosen } = content;
    const again = await composeDocument('lot test report', { ...unchosen, print }, { paper: print.paper });
    expect(Buffer.compare(Buffer.from(again), Buffer.from(bytes))).toBe(0);
  });

  it('names its language (ISO 14289-1, 7.2)', () => {
    expect(Buffer.from(bytes).toString('latin1')).toContain('/Lang (de)');
  });

  needs('pdftotext')('read back', () => {
    let text: string;
    beforeAll(() => {
      text = plain(told('pdftotext', bytes, (file) => ['-raw', file, '-']));
    });

    it('has German where an English report has words of this program', () => {
      const unquoted = text.replace(/„[^“]*“ \(englisch\)/g, '');
      const pieces = Object.entries(FORMS_IN.de)
        .filter(([form, said]) => form !== said)
        .flatMap(([form]) => form.split(/\{\w+\}/))
        .map((piece) => piece.trim())
        .filter((piece) => /[a-z]{2,} [a-z]{2,} [a-z]{2,}/.test(piece) && piece.length >= 18);
      expect(pieces.filter((piece) => unquoted.includes(piece))).toEqual([]);
    });

    it.each([
      ['its kind and number', /Prüfbericht über ein Los Dunlin 42, Los D42-PP1/],
      ['the number of each page', /Seite 1 von \d+ .*Seite 2 von \d+/],
      ['how it may be copied', /nur vollständig vervielfältigen/],
      ['expanded uncertainty with its factor', /Erweiterte Messunsicherheit.*k = 2; 2,0 psi/],
      ['a limit with its edition and rule', /Sportverband \(extern\).*Ausgabe|Grundlage, Quelle und Ausgabe/],
      ['which result a statement covers', /Eine Konformitätsaussage gilt für das eine Ergebnis ihrer Zeile/],
      [
        'every run, also invalid ones',
        /12 Versuche erfasst, 9 geplant\. Gültig 10, gültig mit Abweichung 0, ungültig 1/,
      ],
      ['that only the items tested are meant', /ausschließlich auf die geprüften Gegenstände/],
      ['who signs', /Wer unterschreibt\?.*Freigegeben.*nicht unterschrieben/],
      ['its end', /Ende des Prüfberichts LTR-2407-1 Rev\. 1/],
    ])('has %s', (_, found) => {
      expect(text).toMatch(found);
    });

    it('prints the units chosen, with a decimal comma', () => {
      if (print.units === 'as kept') expect(text).toMatch(/1 \d{3} kPa \d{3},\d psi/);
      else expect(text).toMatch(/\d{2},\d{2} bar \d{3},\d psi/);
      expect(text).not.toMatch(/\d\.\d+ (kPa|psi|bar|%)/);
    });
  });
});
