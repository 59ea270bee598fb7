import { textWidth } from '@breakbook/figures';
import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { needs, told } from '../../../../tests/tools.js';
import { closeDocument, openDocument } from './open-document.js';
import { PAPERS } from './paper.js';
import { drawLine, linesOf, MISSING, printable, widthOf } from './text.js';
import { TYPE } from './type.js';

let doc: PDFKit.PDFDocument;
beforeAll(() => {
  doc = openDocument(PAPERS.A4, {
    title: 'Test',
    creator: 'Test',
    issuedAt: new Date(0),
    software: 'test',
    attached: [],
  });
});

const joined = (lines: readonly string[]) => lines.join('').replace(/[\s\u00a0]/g, '');

describe('linesOf', () => {
  it('loses no letter and makes no line too wide, whatever the words', () => {
    const word = fc.oneof(
      fc.string({ unit: fc.constantFrom(...'abcdeWMil-/0123456789±é'), minLength: 1, maxLength: 90 }),
      fc.constantFrom('1 842 kPa', '14 kPa (k = 2)', 'Donaudampfschifffahrtsgesellschaft', 'العجلات'),
    );
    fc.assert(
      fc.property(
        fc.array(word, { minLength: 1, maxLength: 30 }),
        fc.integer({ min: 30, max: 300 }),
        (words, width) => {
          const text = words.join(' ');
          const lines = linesOf(doc, text, TYPE.cell, width);
          expect(joined(lines)).toBe(joined([text.normalize('NFC')]));
          for (const line of lines) expect(widthOf(doc, line, TYPE.cell)).toBeLessThanOrEqual(width + 0.02);
        },
      ),
      { numRuns: 60 },
    );
  });

  // ISO 80000-1:2022, 7.1.4 (from memory): a number and its unit are separated by a space and belong together.
  it('keeps groups of digits, a number with its unit, and revisions on one line', () => {
    const lines = linesOf(doc, 'a pressure of 1 842 ± 14 kPa by OCF-B1 rev. 2', TYPE.cell, 70);
    expect(lines.some((line) => line.includes('1\u00a0842\u00a0±\u00a014\u00a0kPa'))).toBe(true);
    expect(lines.some((line) => line.includes('rev.\u00a02'))).toBe(true);
  });

  it('keeps the lines of a text that has its own', () => {
    expect(linesOf(doc, 'Test House\nOld Sluice Yard 3', TYPE.body, 300)).toEqual(['Test House', 'Old Sluice Yard 3']);
  });
});

describe('printable', () => {
  it('shows letters of the scripts that the fonts have', () => {
    for (const name of ['Đorđe Žunić', 'Größmann', 'Лаборатория', 'Ρόδα', 'عجلة', 'β η χ² ≤ ± √ Ω'])
      expect(printable(doc, name, TYPE.body)).not.toContain(MISSING);
  });

  it('puts a sign where a letter is missing, never an empty glyph', () => {
    expect(printable(doc, '\u{13080} lab', TYPE.body)).toBe(`${MISSING} lab`);
  });
});

describe('letters of further fonts', () => {
  const names = ['台灣車輪股份有限公司', '株式会社ホイール', '한국 휠 시험소', 'कार्बन पहिया प्रयोगशाला', 'ห้องทดสอบล้อ'];

  it.each(names)('shows %s whole', (name) => {
    for (const style of [TYPE.body, TYPE.cell, TYPE.heading, TYPE.columnTitle])
      expect(printable(doc, name, style)).toBe(name);
  });

  it('counts their width as it draws them: an em for each Han letter', () => {
    // Ideographs fill the em square (common practice, no source).
    expect(widthOf(doc, '台灣車輪', TYPE.body)).toBeCloseTo(4 * TYPE.body.size, 6);
    const line = '台灣 Dunlin 42';
    const apart = widthOf(doc, '台灣', TYPE.body) + widthOf(doc, ' Dunlin 42', TYPE.body);
    expect(widthOf(doc, line, TYPE.body)).toBeCloseTo(apart, 6);
  });

  it('fills lines with them and cuts between letters', () => {
    const lines = linesOf(doc, (names[0] ?? '').repeat(4), TYPE.body, 120);
    expect(lines.join('')).toBe((names[0] ?? '').repeat(4));
    for (const line of lines) expect(widthOf(doc, line, TYPE.body)).toBeLessThanOrEqual(120.02);
  });

  it('are measured and drawn whatever stands beside them: marks of one script on letters of another, and unknown ones', () => {
    const letter = fc.oneof(
      fc.string({ unit: 'grapheme', minLength: 1, maxLength: 3 }),
      fc.constantFrom(
        'k\u0951',
        '台\u0951',
        'ก\u093f',
        'क\u200d',
        '台\ufe0f',
        '1\u20e3',
        '\u{13080}',
        '葛\u{e0100}',
        'a台b',
      ),
    );
    fc.assert(
      fc.property(fc.array(letter, { minLength: 1, maxLength: 6 }), (parts) => {
        const text = parts.join('').replaceAll(/[\r\n\u2028\u2029]/g, ' ');
        const page = openDocument(PAPERS.A4, {
          title: 'Test',
          creator: 'Test',
          issuedAt: new Date(0),
          software: 'test',
          attached: [],
        });
        page.addPage();
        for (const line of [text, printable(page, text, TYPE.body)]) {
          expect(widthOf(page, line, TYPE.body)).toBeGreaterThanOrEqual(0);
          drawLine(page, line, { x: 40, y: 40 }, TYPE.body);
        }
      }),
      { numRuns: 60 },
    );
  });

  needs('pdftotext', 'qpdf')('on a page', () => {
    it('are read back as text in their place, and leave the file sound', async () => {
      const page = openDocument(PAPERS.A4, {
        title: 'Test',
        creator: 'Test',
        issuedAt: new Date(0),
        software: 'test',
        attached: [],
      });
      page.addPage();
      const lines = names.map((name, index) => `${index + 1}: ${name}, Dunlin 42`);
      lines.forEach((line, index) => {
        drawLine(page, line, { x: 40, y: 40 + 30 * index }, index % 2 ? TYPE.heading : TYPE.body);
      });
      const bytes = await closeDocument(page);
      const read = told('pdftotext', bytes, (file) => ['-layout', file, '-']);
      expect(
        read
          .split('\n')
          .map((line) => line.trim())
          .filter((line) => line !== '' && line !== '\f'),
      ).toEqual(lines);
      expect(told('qpdf', bytes, (file) => ['--check', file])).toContain('No syntax or stream encoding errors');
    });
  });
});

describe('textWidth of figures', () => {
  // The widths in figures were copied from the fonts; here the fonts themselves measure.
  it.each(['regular', 'bold'] as const)('agrees with the font, %s', (face) => {
    const text = 'External limit OCF-B1 rev. 2: 1 500 kPa (217.6 psi), 63.2 %; Wägung "0"';
    const ascii = text.replace('ä', 'a');
    const measured = widthOf(doc, ascii, { face, size: 10 });
    // Kerning draws pairs together; labels kept apart without it are kept apart with it.
    const table = textWidth(ascii, 10, face === 'bold');
    expect(table).toBeGreaterThanOrEqual(measured - 1e-6);
    expect(table).toBeLessThan(measured * 1.03);
  });
});
