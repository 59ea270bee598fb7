import { gzipSync } from 'node:zlib';
import { Layout, PROBLEM_CODES, type Problem, Refusal } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import { inventedRun } from './invented-run.fixture.js';
import { readRun } from './read-run.js';

/*
 * Everything that may be wrong or doubtful about a run's file, each as a whole run that is read: what it is answered
 * with, and where a layout may declare it, that it is then taken. The last tests prove that no code is left out. Lines
 * are those of the file as sent: 1 to 4 metadata, 5 the header, the first row in 6.
 */
const input = inventedRun({ rate: 20, noise: 0.3 });
const [file] = input.files;
if (!file || !input.layout) throw new Error('an invented run has a file and a layout');
const SENT = file;
const PLAIN = input.layout;
const T = new TextDecoder().decode(file.bytes);
const LINES = T.trimEnd().split('\n');
const ROWS = LINES.slice(5);

type Content = string | Uint8Array;
type Declared = { [Key in keyof Layout]?: unknown };
interface Answer {
  refused: boolean;
  problems: readonly Problem[];
}

function answerTo(content: Content, declared: Declared = {}, name = 'run-42.csv'): Answer {
  const bytes = typeof content === 'string' ? new TextEncoder().encode(content) : content;
  const layout = Layout.parse({ ...PLAIN, ...declared });
  try {
    return {
      refused: false,
      problems: readRun({ ...input, layout, files: [{ ...SENT, name, bytes }] }).reading.flags,
    };
  } catch (error) {
    if (error instanceof Refusal) return { refused: true, problems: error.problems };
    throw error;
  }
}

const latin1 = (text: string) => Uint8Array.from(text, (one) => one.charCodeAt(0));
const utf16 = (text: string) =>
  Uint8Array.from([...text].flatMap((one) => [one.charCodeAt(0) & 255, one.charCodeAt(0) >> 8]));
const text = (lines: readonly string[]) => `${lines.join('\n')}\n`;
/** The file with this line changed, or left out. */
const at = (line: number, change: (was: string) => string | undefined) =>
  text(LINES.flatMap((was, i) => (i === line - 1 ? (change(was) ?? []) : was)));
const header = (written: string) => at(5, () => written);
const rows = (change: (cells: string[], i: number) => string | undefined, head = LINES.slice(0, 5)) =>
  text([...head, ...ROWS.flatMap((row, i) => change(row.split(','), i) ?? [])]);
const cell = (written: string) => at(100, (was) => was.replace(/,[^,]+,/, `,${written},`));
const clock = (i: number, hours = 10) => new Date(Date.UTC(2031, 2, 4, hours, 12) + 50 * i).toISOString();
const named = (names: string) => [...LINES.slice(0, 4), names];
const columns = (over: object) => [{ ...PLAIN.columns[0], ...over }, PLAIN.columns[1]];
const time = (over: object) => ({ time: { column: 'time', kind: 'time', ...over } });
const COMMAS = { text: { delimiter: 'semicolon', decimalMark: 'comma' } };
const RENAMED = (written: string, unit: string) => ({ unitNames: [{ written, unit }] });

type Row = [what: string, content: Content, code: string, line?: number, declared?: Declared];

const REFUSED: Row[] = [
  ['no bytes', '', 'file.empty'],
  ['a byte order mark alone', '\ufeff', 'file.empty'],
  ['blanks and line ends', ' \n\n', 'file.empty'],
  ['a PDF', '%PDF-1.7', 'file.type-mismatch'],
  ['a spreadsheet', latin1('PK\x03\x04[Content_Types].xml'), 'file.type-mismatch'],
  ['gzip', gzipSync(T), 'file.compressed', undefined, { text: { gzipUpTo: 1_000_000 } }],
  ['zip', latin1('PK\x03\x04'), 'file.compressed'],
  ['UTF-16', utf16(T), 'file.encoding', 1, { text: { encoding: 'utf-16le' } }],
  ['Latin-1', latin1(`# ort: Pr\xfcfstand\n${T}`), 'file.encoding', 1, { text: { encoding: 'latin-1' } }],
  ['Windows-1252', latin1(`# note: \x80\n${T}`), 'file.encoding', 1, { text: { encoding: 'windows-1252' } }],
  ['an overlong sequence', latin1(cell('\xc0\xb1')), 'file.encoding', 100],
  ['a zero byte', cell('1\u00000'), 'file.nul-byte', 100],
  ['a zero-filled tail', `${T}${'\0'.repeat(4096)}`, 'file.nul-byte', LINES.length + 1],
  ['a control character', cell('1\u00070'), 'file.control-char', 100],
  ['a line separator', cell('10\u2028'), 'file.control-char', 100],
  ['lone carriage returns', T.replaceAll('\n', '\r'), 'csv.line-ending', 1, { text: { lineEnds: 'CR' } }],
  ['a last line cut short', T.slice(0, -12), 'file.truncated', LINES.length],
  ['an empty last cell', T.replace(/[^,]+\n$/, '\n'), 'file.truncated', LINES.length],
  ['two runs in one file', T + T, 'header.duplicate-row', LINES.length + 1],
  ['semicolons', T.replaceAll(',', ';'), 'csv.delimiter', 5, { text: { delimiter: 'semicolon' } }],
  ['tabs', T.replaceAll(',', '\t'), 'csv.delimiter', 5, { text: { delimiter: 'tab' } }],
  ['a sep= line', `sep=,\n${T}`, 'csv.delimiter', 1, { text: { preambleLines: 1 } }],
  ['a changing delimiter', at(100, (was) => was.replace(',', ';')), 'csv.delimiter', 100],
  ['a row with a cell more', at(100, (was) => `${was},1`), 'csv.row-width', 100],
  ['a row with a cell fewer', at(100, (was) => was.replace(/,[^,]+$/, '')), 'csv.row-width', 100],
  ['a blank line among the rows', at(100, (was) => `\n${was}`), 'csv.blank-line', 100],
  ['a quote never closed', cell('"10'), 'csv.quote', 100],
  ['a quote inside a cell', cell('1"0'), 'csv.quote', 100],
  ['text after a quote', cell('"10"0'), 'csv.quote', 100],
  ['a line above 64 KiB', cell('1'.repeat(70_000)), 'csv.line-too-long', 100],
  ['over 200 columns', header(`${LINES[4]}${',a [s]'.repeat(200)}`), 'csv.too-many-columns', 5],

  ['a preamble', `Logger, version 3\n${T}`, 'header.missing', 1, { text: { preambleLines: 1 } }],
  ['another comment mark', T.replaceAll('# ', '// '), 'header.missing', 1, { text: { commentMark: '//' } }],
  [
    'no header',
    at(5, () => undefined),
    'header.missing',
    5,
    {
      header: {
        kind: 'none',
        columns: ['time', 'P rim', 'P rim 2'].map((column, i) => ({ column, unit: i ? 'kPa' : 's' })),
      },
    },
  ],
  [
    'units in a row of their own',
    header('time,P rim,P rim 2\ns,kPa,kPa'),
    'header.missing',
    6,
    { header: { kind: 'units in the next row' } },
  ],
  [
    'units in round brackets',
    header('time (s),P rim (kPa),P rim 2 (kPa)'),
    'header.missing',
    5,
    { header: { kind: 'name and unit', brackets: 'round' } },
  ],
  ['no rows', text(LINES.slice(0, 5)), 'header.no-data', 5],
  ['three rows', text(LINES.slice(0, 8)), 'run.too-short', 8],
  ['one name twice', header('time [s],P rim [kPa],p RIM [kPa]'), 'header.duplicate-channel', 5],
  ['an empty name', header('time [s],P rim [kPa],[kPa]'), 'header.name-invalid', 5],
  ['a numeric name', header('time [s],P rim [kPa],12 [kPa]'), 'header.name-invalid', 5],
  ['a hidden sign in a name', header('time [s],P rim [kPa],a\u202eb [kPa]'), 'header.name-invalid', 5],
  [
    'a needed channel under a name nobody knows',
    header('time [s],Druck [kPa],P rim 2 [kPa]'),
    'header.missing-channel',
    5,
    { columns: [{ column: 'Druck', channel: 'rimPressure' }, PLAIN.columns[1]] },
  ],
  ['no unit', header('time [s],P rim,P rim 2 [kPa]'), 'unit.missing', 5],
  ['an unknown unit', header('time [s],P rim [Kilo],P rim 2 [kPa]'), 'unit.unknown', 5, RENAMED('Kilo', 'kPa')],
  ['a unit of another quantity', header('time [s],P rim [mm],P rim 2 [kPa]'), 'unit.wrong-dimension', 5],
  ['a doubtful unit', header('time [s],P rim [KPA],P rim 2 [kPa]'), 'unit.ambiguous', 5, RENAMED('KPA', 'kPa')],
  ['required metadata missing', at(4, () => undefined), 'meta.missing', undefined, { requiredMetadata: [] }],
  ['no metadata', text(LINES.slice(4)), 'meta.missing', undefined, { requiredMetadata: [], metadata: 'none' }],
  ['doubled metadata', `# Specimen: 0417\n${T}`, 'meta.duplicate', 2],
  ['a control character in metadata', `# note: a\u0007\n${T}`, 'meta.text-invalid', 1],
  [
    'metadata without end',
    `${Array.from({ length: 120 }, (_, i) => `# n${i}: x\n`).join('')}${T}`,
    'meta.too-many',
    101,
  ],
  ['30 February', at(3, () => '# started: 2031-02-30T09:12:00Z'), 'meta.date', 3],
  ['no zone', at(3, () => '# started: 2031-03-04T09:12:00'), 'meta.date', 3, { clockZone: 'Z' }],
  ['another specimen', at(1, () => '# specimen: 0418'), 'meta.unknown', 1],

  ['decimal commas', T.replaceAll(',', ';').replaceAll(/(\d)\.(\d)/g, '$1,$2'), 'csv.delimiter', 5, COMMAS],
  ['a decimal comma in a cell', cell('"10,5"'), 'number.decimal-comma', 100],
  ['a thousands mark', cell("1'010.5"), 'number.thousands', 100, { text: { thousandsMark: 'apostrophe' } }],
  ['a word', cell('kaputt'), 'number.syntax', 100],
  ['a unit in a cell', cell('12.5 kPa'), 'number.syntax', 100],
  ['look-alike digits', cell('１２'), 'number.syntax', 100],
  ['OL', cell('OL'), 'number.syntax', 100, { columns: columns({ noReading: ['OL'] }) }],
  ['an empty cell', cell(''), 'number.missing', 100, { columns: columns({ noReading: [''] }) }],
  ['NaN', cell('NaN'), 'number.not-finite', 100, { columns: columns({ noReading: ['NaN'] }) }],
  ['1e400', cell('1e400'), 'number.out-of-range', 100],
  [
    'a time equal to the one before',
    rows(([, ...rest], i) => [Math.floor(i / 2) / 10, ...rest].join(',')),
    'time.duplicate',
    7,
    time({ repeatedStamps: 'spread evenly' }),
  ],
  ['a time that goes back', at(100, (was) => was.replace(/^[^,]+/, '0.001')), 'time.not-increasing', 100],
  [
    'date-times',
    rows(([, ...rest], i) => [clock(i), ...rest].join(','), named('time,P rim [kPa],P rim 2 [kPa]')),
    'number.syntax',
    6,
    time({ kind: 'date-time', form: 'YYYY-MM-DDThh:mm:ss.fZ', zone: '+01:00' }),
  ],
  [
    'date and time of day apart',
    rows(
      ([, ...rest], i) => [clock(i).slice(0, 10), clock(i).slice(11, -1), ...rest].join(','),
      named('time,clock,P rim [kPa],P rim 2 [kPa]'),
    ),
    'number.syntax',
    6,
    time({ clockColumn: 'clock', kind: 'date-time', form: 'YYYY-MM-DD hh:mm:ss.f', zone: 'Europe/Berlin' }),
  ],
];

const FLAGGED: Row[] = [
  ['line ends mixed', at(100, (was) => `${was}\r`), 'csv.line-ending', 100],
  ['no last line end', T.slice(0, -1), 'file.no-final-newline', LINES.length],
  [
    'a column nobody knows',
    text([...LINES.slice(0, 4), `${LINES[4]},Zusatz [1]`, ...ROWS.map((row, i) => `${row},${i % 7}`)]),
    'header.unknown-channel',
    5,
    { columns: [...PLAIN.columns, { column: 'Zusatz', channel: 'extra' }] },
  ],
  ['a date before the rig', at(3, () => '# started: 2030-12-31T09:12:00Z'), 'meta.date', 3],
  [
    'rows missing',
    rows((cells, i) => (i > 400 && i < 410 ? undefined : cells.join(','))),
    'time.gap',
    407,
    time({ gapsExpected: true }),
  ],
  [
    'another rate half way',
    rows((cells, i) => (i > 768 && i % 2 ? undefined : cells.join(','))),
    'time.rate-change',
    775,
  ],
  ['jitter', rows(([t, ...rest], i) => [Number(t) + (i % 10 === 5 ? 0.04 : 0), ...rest].join(',')), 'time.jitter', 11],
  ['sample numbers', rows(([, ...rest], i) => [i, ...rest].join(',')), 'time.range', 6],
  [
    'a start before the trigger',
    rows(([t, ...rest]) => [Number(t) - 1, ...rest].join(',')),
    'time.negative',
    6,
    time({ beginsBeforeZero: true }),
  ],
];

const TAKEN: [what: string, content: Content, name?: string][] = [
  ['one byte order mark', `\ufeff${T}`],
  ['CR LF throughout', T.replaceAll('\n', '\r\n')],
  ['blank lines at the end', `${T}\n\n`],
  ['columns in another order', rows(([t, a, b]) => [b, t, a].join(','), named('P rim 2 [kPa],time [s],P rim [kPa]'))],
  [
    'a known unit, converted',
    rows(([t, a, b]) => [t, Number(a) / 100, b].join(','), named('time [s],P rim [bar],P rim 2 [kPa]')),
  ],
  ['more than fifteen digits', at(100, (was) => was.replace(/(?<=\.\d{3}),/, '00000000000000001,'))],
  ['markup, formulas and paths in metadata', `# note: =1+1 <script>../../\u202e'; drop table runs\n${T}`],
  ['a hostile name', T, '../../<b>CON\u202e.csv'],
];

describe('a file that is refused', () => {
  it.each(REFUSED)('%s', (_, content, code, line, declared) => {
    const plain = answerTo(content);
    expect(plain.refused).toBe(true);
    expect(plain.problems.map((one) => [one.code, one.line])).toContainEqual([code, line]);
    expect(plain.problems[0]).toMatchObject({ file: 'run-42.csv', action: expect.stringMatching(/\.$/) });
    if (!declared) return;
    const allowed = answerTo(content, declared);
    expect(allowed.problems.filter((one) => !one.code.startsWith('signal.'))).toEqual([]);
    expect(allowed.refused).toBe(false);
  });

  it('a name that is none', () => {
    for (const name of ['', 'a\0b', 'a\nb', 'x'.repeat(1001)])
      expect(answerTo(T, {}, name)).toMatchObject({ refused: true, problems: [{ code: 'file.name-invalid' }] });
  });
});

describe('a file that is taken with a flag', () => {
  it.each(FLAGGED)('%s', (_, content, code, line, declared) => {
    const plain = answerTo(content);
    expect(plain.refused).toBe(false);
    expect(plain.problems.map((one) => [one.code, one.line])).toContainEqual([code, line]);
    if (!declared) return;
    const allowed = answerTo(content, declared);
    expect(allowed.refused).toBe(false);
    expect(allowed.problems.map((one) => one.code)).not.toContain(code);
  });
});

describe('a file that is taken without a flag', () => {
  it.each(TAKEN)('%s', (_, content, name) => {
    expect(answerTo(content, {}, name)).toEqual({ refused: false, problems: [] });
  });
});

describe('nothing is left out', () => {
  /** What takes more than one file of one run: no file or several, other runs, and sizes that no test writes. */
  const ELSEWHERE = ['file.missing', 'file.too-large', 'csv.too-many-rows', 'run.duplicate', 'run.near-duplicate'];
  const tried = new Set([...REFUSED, ...FLAGGED].map(([, , code]) => code)).add('file.name-invalid');

  it('every code for a file is met here, or needs more than a file', () => {
    const ofFiles = PROBLEM_CODES.filter((code) => /^(file|csv|header|unit|meta|number|time|run)\./.test(code));
    expect(ofFiles.filter((code) => !tried.has(code)).sort()).toEqual([...ELSEWHERE].sort());
  });

  it('everything that a layout can declare of how files are written is declared here', () => {
    const declared = [...REFUSED, ...FLAGGED].flatMap(([, , , , one]) => (one ? [JSON.stringify(one)] : [])).join();
    const words = [
      ...Object.keys(Layout.shape).filter((key) => !['layout', 'revision', 'rig', 'form'].includes(key)),
      ...['encoding', 'delimiter', 'decimalMark', 'thousandsMark', 'lineEnds', 'commentMark', 'preambleLines'],
      ...['gzipUpTo', 'noReading', 'repeatedStamps', 'gapsExpected', 'beginsBeforeZero', 'clockColumn'],
    ];
    expect(words.filter((word) => !declared.includes(`"${word}"`))).toEqual([]);
  });
});
