import { canonicalJson, parseCanonicalJson } from '@breakbook/evidence';
import type { Language } from '@breakbook/lab';
import { beforeAll, describe, expect, it } from 'vitest';
import { needs, told } from '../../../tests/tools.js';
import { composeDocument, type DocumentContents } from './compose-document.js';
import { inventedDocuments } from './fixtures/invented-documents.js';
import type { InventedLot } from './fixtures/invented-lot.js';
import type { Paper } from './parts/paper.js';

/**
 * Reports read back with tools that know nothing of how they were made. They are written to PDF/A-3a (ISO 19005-3:2012)
 * and PDF/UA-1 (ISO 14289-1:2014); no independent validator is at hand, so these are checks of named clauses, not a
 * validation. Clause numbers from memory.
 */

interface Case {
  kind: keyof DocumentContents;
  name: string;
  given: InventedLot & { run?: string };
  paper: Paper['name'];
  language: Language;
  /** How often a tag stands in the tree. */
  tags: { H1: number; H2: number; Table: number; Figure: number };
  /** What its file and what is attached to it are named after. */
  stem: string;
  /** The words at the left of each foot; labels have none. */
  foot?: string;
  pages?: number;
}

const report = {
  kind: 'lot test report',
  stem: 'LTR-2407-1-rev-1',
  foot: 'Lot test report LTR-2407-1 rev. 1',
} as const;
const mixed = { specimens: 8, mixed: true } as const;
const usual = { specimens: 8 } as const;

const cases: Case[] = [
  {
    ...report,
    name: 'one specimen',
    given: { specimens: 1 },
    paper: 'A4',
    language: 'en',
    tags: { H1: 1, H2: 18, Table: 18, Figure: 4 },
  },
  {
    ...report,
    name: 'every kind of exception',
    given: mixed,
    paper: 'A4',
    language: 'en',
    tags: { H1: 1, H2: 18, Table: 19, Figure: 4 },
  },
  {
    ...report,
    name: 'thirty specimens',
    given: { specimens: 30, mixed: true },
    paper: 'Letter',
    language: 'en',
    tags: { H1: 1, H2: 18, Table: 19, Figure: 4 },
  },
  ...(['en', 'de'] as const).flatMap((language): Case[] => [
    {
      kind: 'run sheet',
      name: 'a valid run',
      given: usual,
      paper: language === 'en' ? 'A4' : 'Letter',
      language,
      tags: { H1: 1, H2: 3, Table: 3, Figure: 1 },
      stem: 'RS-161-rev-1',
      foot: { en: 'Run sheet RS-161 rev. 1', de: 'Versuchsblatt RS-161 Rev. 1' }[language],
      pages: 1,
    },
    {
      kind: 'specimen record',
      name: 'a broken specimen',
      given: usual,
      paper: language === 'en' ? 'Letter' : 'A4',
      language,
      tags: { H1: 1, H2: 5, Table: 5, Figure: 0 },
      stem: 'SR-401-rev-1',
      foot: { en: 'Specimen record SR-401 rev. 1', de: 'Prüflingsakte SR-401 Rev. 1' }[language],
    },
    {
      kind: 'certificate of test',
      name: 'a lot as planned',
      given: usual,
      paper: 'A4',
      language,
      tags: { H1: 1, H2: 4, Table: 1, Figure: 1 },
      stem: 'CT-2407-1-rev-1',
      foot: {
        en: 'Certificate of test CT-2407-1 rev. 1, in force',
        de: 'Prüfzertifikat CT-2407-1 Rev. 1, in Kraft',
      }[language],
      ...(language === 'en' ? { pages: 1 } : {}),
    },
    {
      kind: 'label sheet',
      name: 'eight specimens',
      given: usual,
      paper: 'A4',
      language,
      tags: { H1: 0, H2: 0, Table: 0, Figure: 8 },
      stem: 'LS-2407-1-rev-1',
      pages: 1,
    },
  ]),
  {
    kind: 'comparison report',
    name: 'two items, declared anew',
    given: { specimens: 1, mixed: true },
    paper: 'A4',
    language: 'en',
    tags: { H1: 1, H2: 10, Table: 31, Figure: 2 },
    stem: 'CR-42-1-rev-1',
    foot: 'Comparison report CR-42-1 rev. 1',
  },
  {
    kind: 'comparison report',
    name: 'two items',
    given: { specimens: 1 },
    paper: 'Letter',
    language: 'de',
    tags: { H1: 1, H2: 10, Table: 31, Figure: 2 },
    stem: 'CR-42-1-rev-1',
    foot: 'Vergleichsbericht CR-42-1 Rev. 1',
  },
  {
    kind: 'run sheet',
    name: 'a run found invalid',
    given: { ...mixed, run: '170' },
    paper: 'A4',
    language: 'en',
    tags: { H1: 1, H2: 3, Table: 4, Figure: 1 },
    stem: 'RS-161-rev-1',
    foot: 'Run sheet RS-161 rev. 1',
    pages: 1,
  },
];

const plain = (text: string) => text.replace(/[\u00a0\u202f]/g, ' ');
const text = (bytes: Uint8Array, ...more: string[]) => plain(told('pdftotext', bytes, (file) => [...more, file, '-']));

describe.each(cases)('a $kind of $name on $paper ($language)', (one) => {
  const { kind, given, paper, language, tags, stem } = one;
  let content: DocumentContents[typeof kind];
  let bytes: Uint8Array;
  const composed = (from: typeof content) => composeDocument(kind, from);
  beforeAll(async () => {
    content = inventedDocuments({ ...given, print: { paper, language, units: 'as kept' } })[kind];
    bytes = await composed(content);
  });

  it('has the same bytes each time it is composed', async () => {
    const again = await composed(inventedDocuments({ ...given, print: { paper, language, units: 'as kept' } })[kind]);
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
      expect(pages.length).toBeGreaterThanOrEqual(1);
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
      expect(shown).toBeGreaterThan(40);
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
      expect(fonts.length).toBeGreaterThanOrEqual(2);
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

    it('hold a tree of tags: one title, a heading for each section, tables with heads, figures', () => {
      const tree = told('pdfinfo', bytes, (file) => ['-struct', file]);
      const count = (tag: string) => tree.split('\n').filter((line) => line.trim().split(/[ :]/)[0] === tag).length;
      expect(count('Document')).toBe(1);
      for (const [tag, times] of Object.entries(tags)) expect(count(tag), tag).toBe(times);
      if (tags.Table > 0) expect(count('TH')).toBeGreaterThanOrEqual(2 * tags.Table);
    });
  });

  needs('pdfdetach', 'pdftotext')('its attachment', () => {
    it('is its content in canonical JSON, and nothing else', () => {
      expect(told('pdfdetach', bytes, (file) => ['-list', file])).toContain(`${stem}.json`);
      const json = told('pdfdetach', bytes, (file) => ['-save', '1', '-o', 'content.json', file], 'content.json');
      expect(json).toBe(canonicalJson(content));
      expect(parseCanonicalJson(json)).toMatchObject({ document: kind, form: 1 });
    });

    it('makes the same file again, to the byte', async () => {
      const json = told('pdfdetach', bytes, (file) => ['-save', '1', '-o', 'content.json', file], 'content.json');
      const again = await composed(JSON.parse(json) as typeof content);
      expect(Buffer.compare(Buffer.from(again), Buffer.from(bytes))).toBe(0);
    });
  });

  needs('pdftotext')('its pages', () => {
    it('each carry number, revision, state, page x of y and how it may be copied (R03, R18)', () => {
      const pages = text(bytes, '-layout').split('\f').slice(0, -1);
      if (one.pages !== undefined) expect(pages).toHaveLength(one.pages);
      if (one.foot === undefined) return;
      for (const [index, page] of pages.entries()) {
        const foot = page.trim().split('\n').at(-1) ?? '';
        expect(foot).toContain(one.foot);
        expect(foot).toContain({ en: 'reproduce only in full', de: 'nur vollständig vervielfältigen' }[language]);
        expect(foot).toMatch(new RegExp(`(page|Seite) ${index + 1} (of|von) ${pages.length}`));
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
      if (content.document !== 'lot test report') return;
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
