import { canonicalJson, parseCanonicalJson } from '@breakbook/evidence';
import { beforeAll, describe, expect, it } from 'vitest';
import { needs, told } from '../../../tests/tools.js';
import { composeDocument } from './compose-document.js';
import { type LotReportContent } from './content/lot-report-content.js';
import { type InventedLot, inventedContent } from './fixtures/invented-lot.js';
import { type Paper } from './parts/paper.js';

/**
 * Reports read back with tools that know nothing of how they were made. They are written to PDF/A-3a (ISO 19005-3:2012)
 * and PDF/UA-1 (ISO 14289-1:2014); no independent validator is at hand, so these are checks of named clauses, not a
 * validation. Clause numbers from memory.
 */

const cases: { name: string; given: InventedLot; paper: Paper['name'] }[] = [
  { name: 'one specimen on A4', given: { specimens: 1 }, paper: 'A4' },
  { name: 'eight specimens and every kind of exception on A4', given: { specimens: 8, mixed: true }, paper: 'A4' },
  {
    name: 'eight specimens and every kind of exception on Letter',
    given: { specimens: 8, mixed: true },
    paper: 'Letter',
  },
  { name: 'thirty specimens on Letter', given: { specimens: 30, mixed: true }, paper: 'Letter' },
];

const plain = (text: string) => text.replace(/[\u00a0\u202f]/g, ' ');
const text = (bytes: Uint8Array, ...more: string[]) => plain(told('pdftotext', bytes, (file) => [...more, file, '-']));

describe.each(cases)('a report with $name', ({ given, paper }) => {
  let content: LotReportContent;
  let bytes: Uint8Array;
  beforeAll(async () => {
    content = inventedContent(given);
    bytes = await composeDocument('lot test report', content, { paper });
  });

  it('has the same bytes each time it is composed', async () => {
    const again = await composeDocument('lot test report', inventedContent(given), { paper });
    expect(Buffer.compare(Buffer.from(again), Buffer.from(bytes))).toBe(0);
  });

  needs('qpdf')('its content streams', () => {
    it('show nothing outside a tag or an artifact, and nest neither in the other (ISO 14289-1, 7.1)', () => {
      const plainFile = told(
        'qpdf',
        bytes,
        (file) => ['--qdf', '--object-streams=disable', file, 'plain.pdf'],
        'plain.pdf',
      );
      const streams = [...plainFile.matchAll(/stream\n([\s\S]*?)\nendstream/g)].map(([, stream = '']) => stream);
      const pages = streams.filter((stream) => /\bBT\b/.test(stream));
      expect(pages.length).toBeGreaterThan(3);
      let shown = 0;
      for (const page of pages) {
        let depth = 0;
        for (const [operator] of page.matchAll(/\b(BDC|BMC|EMC|TJ|Tj|f|S|B)\b(?=\n|$)/gm)) {
          if (operator === 'BDC' || operator === 'BMC') depth += 1;
          else if (operator === 'EMC') depth -= 1;
          else {
            expect(depth, `${operator} outside`).toBe(1);
            shown += 1;
          }
          expect(depth).toBeGreaterThanOrEqual(0);
          expect(depth).toBeLessThanOrEqual(1);
        }
        expect(depth).toBe(0);
      }
      expect(shown).toBeGreaterThan(300);
    });
  });

  needs('qpdf')('to qpdf', () => {
    it('is a sound file, not encrypted', () => {
      const said = told('qpdf', bytes, (file) => ['--check', file]);
      expect(said).toContain('No syntax or stream encoding errors found');
      expect(said).toContain('File is not encrypted');
    });
  });

  needs('pdffonts')('its fonts', () => {
    it('are all embedded, subsets, with a map to Unicode (ISO 19005-3, 6.2.11)', () => {
      const [, , ...fonts] = told('pdffonts', bytes, (file) => [file])
        .trim()
        .split('\n');
      expect(fonts.length).toBeGreaterThanOrEqual(3);
      // The columns before the object number are: embedded, subset, Unicode.
      for (const font of fonts) expect(font).toMatch(/DejaVuSans.*\byes\s+yes\s+yes\s+\d+\s+\d+$/);
    });
  });

  needs('pdfinfo')('its properties', () => {
    it('say that it is tagged, which paper it is for, and when it was issued', () => {
      const said = told('pdfinfo', bytes, (file) => ['-isodates', file]);
      expect(said).toMatch(/Tagged:\s+yes/);
      expect(said).toMatch(/Suspects:\s+no/);
      expect(said).toMatch(paper === 'A4' ? /595\.276 x 841\.89 pts \(A4\)/ : /612 x 792 pts \(letter\)/);
      expect(said).toContain('2031-02-20T09:30:00Z');
    });

    it('claim PDF/A part 3, conformance A, and PDF/UA part 1 in XMP (ISO 19005-3, 6.6.4; ISO 14289-1, clause 5)', () => {
      const xmp = told('pdfinfo', bytes, (file) => ['-meta', file]);
      expect(xmp).toContain('<pdfaid:part>3</pdfaid:part>');
      expect(xmp).toContain('<pdfaid:conformance>A</pdfaid:conformance>');
      expect(xmp).toContain('<pdfuaid:part>1</pdfuaid:part>');
    });

    it('hold a tree of tags with one H1, sections under H2, tables with heads, and figures', () => {
      const tree = told('pdfinfo', bytes, (file) => ['-struct', file]);
      const count = (tag: string) => tree.split('\n').filter((line) => line.trim().split(/[ :]/)[0] === tag).length;
      expect(count('Document')).toBe(1);
      expect(count('H1')).toBe(1);
      expect(count('H2')).toBe(18);
      expect(count('Table')).toBeGreaterThan(8);
      expect(count('TH')).toBeGreaterThan(40);
      expect(count('Figure')).toBe(4);
    });
  });

  needs('pdfdetach', 'pdftotext')('its attachment', () => {
    it('is its content in canonical JSON, and nothing else', () => {
      expect(told('pdfdetach', bytes, (file) => ['-list', file])).toContain('LTR-2407-1-rev-1.json');
      const json = told('pdfdetach', bytes, (file) => ['-save', '1', '-o', 'content.json', file], 'content.json');
      expect(json).toBe(canonicalJson(content));
      expect(parseCanonicalJson(json)).toMatchObject({ document: 'lot test report', form: 1 });
    });

    it('makes the same file again, to the byte', async () => {
      const json = told('pdfdetach', bytes, (file) => ['-save', '1', '-o', 'content.json', file], 'content.json');
      const again = await composeDocument('lot test report', JSON.parse(json) as LotReportContent, { paper });
      expect(Buffer.compare(Buffer.from(again), Buffer.from(bytes))).toBe(0);
    });
  });

  needs('pdftotext')('its pages', () => {
    it('each carry number, revision, state, page x of y and how it may be copied (R03, R18)', () => {
      const pages = text(bytes, '-layout').split('\f').slice(0, -1);
      for (const [index, page] of pages.entries()) {
        const foot = page.trim().split('\n').at(-1) ?? '';
        expect(foot).toContain('Lot test report LTR-2407-1 rev. 1, unsigned draft');
        expect(foot).toContain('reproduce only in full');
        expect(foot).toContain(`page ${index + 1} of ${pages.length}`);
      }
    });

    it('never end on a heading, nor on the head of a table', () => {
      const headings = text(bytes)
        .split('\n')
        .filter((line) => line.endsWith('?') && line.length < 80);
      for (const page of text(bytes, '-layout').split('\f').slice(0, -1)) {
        const lines = page
          .trim()
          .split('\n')
          .map((line) => line.trim())
          .filter((line) => line !== '');
        const last = lines.at(-2) ?? '';
        expect(headings).not.toContain(last);
        expect(last).not.toMatch(/^(Specimen|Run|Limit|Criterion)\b.*\b(Result|Serial|Started|Value|Outcome)\b/);
      }
    });

    it('show every specimen with its value as it was judged', () => {
      const all = text(bytes, '-layout');
      for (const judgement of content.judgements) {
        const [result] = judgement.results;
        if (!result || 'notEvaluated' in result.value || judgement.validity !== 'valid') continue;
        const value = 'value' in result.value ? result.value.value : 0;
        const digits = String(Math.round(value)).replace(/\B(?=(\d{3})+$)/g, ' ');
        expect(all).toMatch(new RegExp(`${judgement.specimen}\\s+(at least )?${digits} kPa`));
      }
    });
  });
});
