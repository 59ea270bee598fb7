import { Refusal } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import { OLD_RESULTS_BOUNDS, readOldResults, refuseFutureDays } from './read-old-results.js';

const HEADER = 'product,lot,specimen,test,characteristic,unit,outcome,value,date,rig,source,validity';
const ROW =
  'dunlin-42,OLD-7,S-1,rim burst,burst pressure,bar,exact,18.4,2019-05-17,unknown,"bench book 3, p. 12",valid';

const bytes = (text: string) => new TextEncoder().encode(text);
const read = (text: string | Uint8Array) => readOldResults('old.csv', typeof text === 'string' ? bytes(text) : text);

function refused(text: string | Uint8Array): Refusal {
  try {
    read(text);
  } catch (error) {
    if (error instanceof Refusal) return error;
    throw error;
  }
  throw new Error('It was taken.');
}

/** The row with some of its cells written otherwise. */
function row(change: Partial<Record<string, string>>): string {
  const cells = 'dunlin-42|OLD-7|S-1|rim burst|burst pressure|bar|exact|18.4|2019-05-17|unknown|book|valid'.split('|');
  return HEADER.split(',')
    .map((name, index) => change[name] ?? cells[index])
    .join(',');
}

describe('a table of old results', () => {
  it('is read row by row, with the cells as they stood', () => {
    expect(read(`${HEADER}\n${ROW}\n`)).toEqual({
      results: [
        {
          line: 2,
          product: 'dunlin-42',
          lot: 'OLD-7',
          specimen: 'S-1',
          test: 'rim burst',
          characteristic: 'burst pressure',
          unit: 'bar',
          value: { kind: 'exact', value: 18.4 },
          written: ['18.4'],
          date: '2019-05-17',
          source: 'bench book 3, p. 12',
          validity: 'valid',
        },
      ],
      flags: [],
    });
  });

  it('knows at least, at most and between, a reference, an unknown day and a named rig', () => {
    const text = [
      `${HEADER},lower,upper,reference,remark`,
      `${row({ outcome: 'at least', date: 'unknown' })},,,gauge,stopped at the limit`,
      `${row({ outcome: 'at most', value: '+1.9e1', rig: 'old pump' })},,,,`,
      `${row({ outcome: 'between', value: '' })},17,18.5,absolute,`,
    ].join('\r\n');
    const { results, flags } = read(`\ufeff${text}\r\n`);
    expect(results.map(({ value }) => value)).toEqual([
      { kind: 'atLeast', value: 18.4 },
      { kind: 'atMost', value: 19 },
      { kind: 'between', lower: 17, upper: 18.5 },
    ]);
    expect(results.map(({ reference }) => reference)).toEqual(['gauge', undefined, 'absolute']);
    expect(results[0]).not.toHaveProperty('date');
    expect(results.map(({ rig }) => rig)).toEqual([undefined, 'old pump', undefined]);
    expect(results[2]?.written).toEqual(['17', '18.5']);
    expect(flags).toEqual([]);
  });

  it('takes columns in any order, and blanks and capitals in their names', () => {
    const turned = (line: string) => line.split(',').reverse().join(',');
    const { results } = read(`${turned(HEADER).replace('lot', ' Lot ')}\n${turned(row({}))}\n`);
    expect(results[0]).toMatchObject({ lot: 'OLD-7', value: { kind: 'exact', value: 18.4 } });
  });

  it('is flagged where its last line has no end, and where line ends are mixed', () => {
    expect(read(`${HEADER}\n${row({})}`).flags).toMatchObject([{ code: 'file.no-final-newline', line: 2 }]);
    expect(read(`${HEADER}\r\n${row({})}\n${row({ specimen: 'S-2' })}\r\n`).flags).toMatchObject([
      { code: 'csv.line-ending' },
    ]);
  });

  it.each([
    ['value', '18;4', 'number.syntax'],
    ['value', '', 'number.missing'],
    ['value', 'NaN', 'number.not-finite'],
    ['value', '1e400', 'number.out-of-range'],
    ['value', '>18', 'number.syntax'],
    ['unit', '', 'unit.missing'],
    ['unit', 'psig', 'unit.ambiguous'],
    ['unit', 'KPA', 'unit.ambiguous'],
    ['unit', 'kilobar?', 'unit.unknown'],
    ['unit', 'cd', 'unit.wrong-dimension'],
    ['outcome', 'about', 'meta.unknown'],
    ['outcome', 'atLeast', 'meta.unknown'],
    ['date', '17.05.2019', 'meta.date'],
    ['date', '2019-02-30', 'meta.date'],
    ['date', '', 'meta.missing'],
    ['rig', '', 'meta.missing'],
    ['source', '', 'meta.missing'],
    ['validity', 'void', 'meta.unknown'],
    ['product', 'no key', 'meta.unknown'],
    ['lot', 'x'.repeat(301), 'meta.text-invalid'],
  ])('with %s "%s" is refused at that cell: %s', (name, written, code) => {
    const refusal = refused(`${HEADER}\n${row({ specimen: 'S-0' })}\n${row({ [name]: written })}\n`);
    const column = HEADER.split(',').indexOf(name) + 1;
    expect(refusal.problems).toMatchObject([{ code, file: 'old.csv', line: 3, column, channel: name }]);
    expect(refusal.problems[0]?.detail).toMatch(new RegExp(`^old.csv, line 3, column ${column} \\(${name}\\): `));
  });

  it.each([
    ['nothing', '', 'file.empty', undefined],
    ['a header alone', `${HEADER}\n`, 'header.no-data', 1],
    ['semicolons', `${HEADER.replaceAll(',', ';')}\nx\n`, 'csv.delimiter', 1],
    ['no header', 'rims that we broke\nx\n', 'header.missing', 1],
    ['a column that nobody knows', `${HEADER},colour\n${row({})},red\n`, 'header.unknown-channel', 1],
    ['a column twice', `${HEADER},lot\n${row({})},a\n`, 'header.duplicate-channel', 1],
    ['a column without name', `${HEADER},\n${row({})},\n`, 'header.name-invalid', 1],
    ['a column too few', `${HEADER.replace(',rig', '')}\n${row({})}\n`, 'header.missing-channel', 1],
    ['a short row', `${HEADER}\n${row({})}\nx,y\n`, 'csv.row-width', 3],
    ['a blank line', `${HEADER}\n\n${row({})}\n`, 'csv.blank-line', 2],
    ['an open quote', `${HEADER}\n"${row({})}\n`, 'csv.quote', 2],
    ['the header again', `${HEADER}\n${row({})}\n${HEADER}\n`, 'header.duplicate-row', 3],
    ['a row twice', `${HEADER}\n${row({})}\n${row({})}\n`, 'meta.duplicate', 3],
    ['a control character', `${HEADER}\n${row({ lot: 'a\u0007' })}\n`, 'file.control-char', 2],
    ['a zero byte', `${HEADER}\n${row({ lot: 'a\0' })}\n`, 'file.nul-byte', 2],
  ])('with %s is refused', (_, text, code, line) => {
    expect(refused(text).problems[0]).toMatchObject({ code, ...(line === undefined ? {} : { line }) });
  });

  it('is refused as what it is where it is no text, too long, or not UTF-8', () => {
    expect(refused(bytes('PK\u0003\u0004')).problems[0]?.code).toBe('file.compressed');
    expect(refused(bytes('%PDF-1.7')).problems[0]?.code).toBe('file.type-mismatch');
    expect(refused(new Uint8Array(OLD_RESULTS_BOUNDS.bytes + 1).fill(65)).problems[0]?.code).toBe('file.too-large');
    const latin = Buffer.from(`${HEADER}\n${row({ source: 'Müller' })}\n`, 'latin1');
    expect(refused(latin).problems[0]).toMatchObject({ code: 'file.encoding', line: 2 });
    const rows = Array.from({ length: OLD_RESULTS_BOUNDS.rows + 1 }, (_, n) => row({ specimen: `S-${n}` }));
    expect(refused([HEADER, ...rows].join('\n')).problems[0]?.code).toBe('csv.too-many-rows');
  });

  it('with ends the wrong way round, or with a cell too many for its outcome, is refused', () => {
    const wide = `${HEADER},lower,upper,reference\n`;
    const codes = (line: string) =>
      refused(`${wide}${line}\n`).problems.map(({ code, channel }) => `${code} ${channel}`);
    expect(codes(`${row({ outcome: 'between', value: '' })},18,17,`)).toEqual(['number.out-of-range upper']);
    expect(codes(`${row({ outcome: 'between', value: '17' })},17,18,`)).toEqual(['number.syntax value']);
    expect(codes(`${row({})},17,,`)).toEqual(['number.syntax lower']);
    expect(codes(`${row({ unit: 'J' })},,,gauge`)).toEqual(['unit.wrong-dimension reference']);
  });

  it('tells every problem of every row, the first hundred in full', () => {
    const rows = Array.from({ length: 150 }, (_, n) => row({ specimen: `S-${n}`, value: '', unit: '' }));
    const refusal = refused([HEADER, ...rows, ''].join('\n'));
    expect(refusal.problems).toHaveLength(100);
    expect(refusal.problemCount).toBe(300);
  });

  it('has no result of a day that has not come', () => {
    const { results } = read(`${HEADER}\n${row({})}\n`);
    expect(() => refuseFutureDays('old.csv', results, '2019-05-17')).not.toThrow();
    expect(() => refuseFutureDays('old.csv', results, '2019-05-16')).toThrow('has not come yet');
  });
});
