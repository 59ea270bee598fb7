import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { openDocument } from '../open-document.js';
import { PAPERS } from '../paper.js';
import { widthOf } from '../text.js';
import { GUTTER, measure, parted, splitNumber } from './measure.js';
import { normalise } from './normalise.js';

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

const columns = [{ title: 'Specimen' }, { title: 'Result', align: 'number' }, { title: 'Why it is known so' }] as const;
const WIDTH = 480;

describe('normalise', () => {
  it('refuses a row that does not fit the head, and names it', () => {
    expect(() =>
      normalise({
        block: 'table',
        title: 'Results',
        columns: [...columns],
        rows: [['401', '1 842 kPa']],
        empty: 'none',
      }),
    ).toThrow('Row 1 of table "Results" has 2 cells for 3 columns.');
  });

  it('says so where there is no row', () => {
    const { rows } = normalise({ block: 'table', columns: [...columns], rows: [], empty: 'no valid run' });
    expect(rows.map((row) => row.map(({ text }) => text))).toEqual([['no valid run', '', '']]);
  });
});

describe('measure', () => {
  it('never leaves the page, cuts a line, or lets columns touch, whatever the cells hold', () => {
    const cell = fc.string({ unit: fc.constantFrom(...'abcWM 0123456789.-'), maxLength: 160 });
    fc.assert(
      fc.property(fc.array(fc.tuple(cell, cell, cell), { minLength: 1, maxLength: 8 }), (rows) => {
        const table = measure(doc, normalise({ block: 'table', columns: [...columns], rows, empty: '' }), WIDTH);
        const last = table.columns.at(-1);
        expect((last?.x ?? 0) + (last?.width ?? 0)).toBeLessThanOrEqual(WIDTH + 0.01);
        for (const row of table.rows)
          for (const [index, { lines }] of row.cells.entries())
            for (const { text, style } of lines)
              expect(widthOf(doc, text, style)).toBeLessThanOrEqual((table.columns[index]?.width ?? 0) + 0.02);
        for (const [index, column] of table.columns.entries()) {
          const next = table.columns[index + 1];
          if (next) expect(next.x - column.x - column.width).toBeCloseTo(GUTTER, 6);
        }
      }),
      { numRuns: 60 },
    );
  });

  it('lets a column that wants little stay on one line beside one that wants much', () => {
    const rows = [['401', '1 842 kPa', 'the tyre came off '.repeat(20)]];
    const table = measure(doc, normalise({ block: 'table', columns: [...columns], rows, empty: '' }), WIDTH);
    expect(table.rows[0]?.cells.map(({ lines }) => lines.length)).toEqual([1, 1, expect.any(Number)]);
  });

  it('parts a row that is taller than a page, and only such a row, without losing a line', () => {
    const rows = [['401', '1 842 kPa', 'word '.repeat(2000).trim()]];
    const table = measure(doc, normalise({ block: 'table', columns: [...columns], rows, empty: '' }), WIDTH);
    const [row] = table.rows;
    if (!row) throw new Error('no row');
    const parts = parted(row, 300);
    expect(parts.length).toBeGreaterThan(1);
    for (const part of parts) expect(part.height).toBeLessThanOrEqual(300);
    expect(parts.flatMap(({ cells }) => cells[2]?.lines ?? [])).toEqual(row.cells[2]?.lines);
    expect(parts.map(({ continues }) => continues ?? false)).toEqual(parts.map((_, at) => at < parts.length - 1));
    expect(parted(row, 1e6)).toEqual([row]);
  });
});

describe('splitNumber', () => {
  it.each([
    ['1\u00a0842\u00a0kPa', '1\u00a0842', '\u00a0kPa'],
    ['1\u202f842\u00a0kPa', '1\u202f842', '\u00a0kPa'],
    ['18.42 bar', '18', '.42 bar'],
    ['at least 1\u00a0842\u00a0kPa', 'at least 1\u00a0842', '\u00a0kPa'],
    ['1\u00a0842\u00a0±\u00a014\u00a0kPa', '1\u00a0842', '\u00a0±\u00a014\u00a0kPa'],
    ['0.54\u00a0kg', '0', '.54\u00a0kg'],
    ['2.380', '2', '.380'],
    ['none', 'none', ''],
  ])('%s stands at its decimal sign', (text, whole, part) => {
    expect(splitNumber(text)).toEqual([whole, part]);
  });
});
