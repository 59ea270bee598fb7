import { type MethodChannel, Refusal } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import { FILE_BOUNDS } from './file-bounds.js';
import { expectationOf } from './header.js';
import { Layout1Reader, type ReadOptions, readLayout1 } from './layout-1.js';
import { columnDigest } from './numbers-digest.js';

const CHANNELS: MethodChannel[] = [
  { channel: 'rimPressure', kind: 'pressure', required: true, reference: 'gauge' },
  { channel: 'rimPressure2', kind: 'pressure', required: false, reference: 'gauge' },
  { channel: 'roomTemperature', kind: 'temperature', required: false },
];
const EXPECTED = expectationOf(
  {
    time: { column: 'time', kind: 'time' },
    columns: [
      { column: 'P rim', channel: 'rimPressure' },
      { column: 'P rim 2', channel: 'rimPressure2' },
      { column: 'T room', channel: 'roomTemperature' },
    ],
  },
  CHANNELS,
);
const HEAD = '# specimen: 0417\n# rig: R1\n# started: 2031-03-04T09:12:00Z\n';
const ROWS = '0.00,101.3\n0.01,102.6\n0.02,103.9\n';
const GOOD = `${HEAD}time [s],P rim [kPa]\n${ROWS}`;

const bytesOf = (text: string) => new TextEncoder().encode(text);
const OPTIONS: ReadOptions = { requiredMetadata: ['specimen', 'rig', 'started'] };
const read = (content: string | Uint8Array, options: Partial<ReadOptions> = {}, name = 'burst-0417.csv') =>
  readLayout1(name, typeof content === 'string' ? bytesOf(content) : content, EXPECTED, { ...OPTIONS, ...options });

function refusalOf(content: string | Uint8Array, options: Partial<ReadOptions> = {}, name?: string): Refusal {
  try {
    read(content, options, name);
  } catch (error) {
    if (error instanceof Refusal) return error;
    throw error;
  }
  throw new Error('was taken');
}
const latin1 = (text: string) => Uint8Array.from(text, (one) => one.charCodeAt(0));

describe('layout 1', () => {
  it('reads metadata, units and numbers as written', () => {
    const table = read(GOOD);
    expect(table).toMatchObject({ rows: 3, firstLine: 5, flags: [] });
    expect(table.metadata.get('Specimen')).toEqual({ key: 'specimen', value: '0417', line: 1 });
    expect(table.columns).toMatchObject([
      { column: 1, unit: 's', carries: { time: true } },
      { column: 2, unit: 'kPa', carries: { channel: { channel: 'rimPressure' } } },
    ]);
    expect(table.values.map((one) => [...one])).toEqual([
      [0, 0.01, 0.02],
      [101.3, 102.6, 103.9],
    ]);
  });

  it('takes columns in another order, CR LF throughout, one byte order mark, quoted cells and blanks at the end', () => {
    const text = `\ufeff${HEAD}"P rim [kPa]", time [s]\n "101.3" , 0.00\n102.6,0.01\n \n\n`.replaceAll('\n', '\r\n');
    const table = read(text);
    expect(table.flags).toEqual([]);
    expect(table.columns[0]).toMatchObject({ name: 'P rim', column: 1 });
    expect([...(table.values[0] ?? [])]).toEqual([101.3, 102.6]);
  });

  it('takes one pair of brackets or two round a code that has its own', () => {
    for (const header of ['time [s],P rim [psi]', 'time [s],P rim [[psi]]'])
      expect(read(`${HEAD}${header}\n${ROWS}`).columns[1]).toMatchObject({ unit: '[psi]' });
  });

  it('keeps hostile text in metadata letter by letter', () => {
    for (const value of ['=1+1', '<script>alert(1)</script>', '../../etc/passwd', "'; drop table runs; --", 'a\u202Eb'])
      expect(read(`# note: ${value}\n${GOOD}`).metadata.get('note')?.value).toBe(value);
  });

  it('reads the same from pieces of any length', () => {
    const whole = read(GOOD);
    for (const piece of [1, 2, 7, 40]) {
      const reader = new Layout1Reader('burst-0417.csv', EXPECTED, OPTIONS);
      const bytes = bytesOf(GOOD);
      for (let at = 0; at < bytes.length; at += piece) reader.take(bytes.subarray(at, at + piece));
      expect(reader.end().values.map((one) => [...one])).toEqual(whole.values.map((one) => [...one]));
    }
  });

  it('reads a file longer than one piece, tells how far it is, and counts lines right to its end', () => {
    const rows = Array.from({ length: 200_000 }, (_, i) => `${(i / 1000).toFixed(3)},${(i * 0.01).toFixed(2)}`);
    const progress: [number, number][] = [];
    const text = `${HEAD}time [s],P rim [kPa]\n${rows.join('\n')}\n`;
    const table = read(text, { onProgress: (done, total) => progress.push([done, total]) });
    expect(table.rows).toBe(200_000);
    expect(table.values[1]?.[199_999]).toBe(1999.99);
    expect(progress.length).toBeGreaterThan(1);
    expect(progress.at(-1)).toEqual([text.length, text.length]);
    rows[150_000] = '150.000,x';
    expect(refusalOf(`${HEAD}time [s],P rim [kPa]\n${rows.join('\n')}\n`).problems[0]?.line).toBe(150_005);
  });

  it('hands rows on in blocks, all of them and in order', () => {
    const rows = Array.from({ length: 10_000 }, (_, i) => `${i},${2 * i}`);
    const handed: number[][] = [[], []];
    const blocks: number[] = [];
    const table = read(`${HEAD}time [s],P rim [kPa]\n${rows.join('\n')}\n`, {
      onBlock: (columns) => {
        blocks.push(columns[0]?.length ?? 0);
        for (const [index, column] of columns.entries()) handed[index]?.push(...column);
      },
    });
    expect(blocks).toEqual([4096, 4096, 1808]);
    expect(handed).toEqual([Array.from(rows, (_, i) => i), Array.from(rows, (_, i) => 2 * i)]);
    expect(table).toMatchObject({ rows: 10_000, values: [new Float64Array(0), new Float64Array(0)] });
  });

  it('holds the columns that are asked for, and digests the others to the same', () => {
    const rows = Array.from({ length: 20_000 }, (_, i) => `${i},${2 * i},${3 * i}`);
    const content = `${HEAD}time [s],P rim [kPa],T room [Cel]\n${rows.join('\n')}\n`;
    const whole = read(content);
    const some = read(content, { keep: ({ carries }) => 'time' in carries });
    expect(whole.values.map((one) => [one.length, one.at(-1)])).toEqual([
      [20_000, 19_999],
      [20_000, 39_998],
      [20_000, 59_997],
    ]);
    expect(some.values.map((one) => one.length)).toEqual([20_000, 0, 0]);
    expect(some.digests).toEqual([undefined, ...whole.values.slice(1).map(columnDigest)]);
    expect(whole.digests).toEqual([undefined, undefined, undefined]);
  });

  it('keeps the first hundred problems and counts them all', () => {
    const refusal = refusalOf(`${HEAD}time [s],P rim [kPa]\n${'x,y\n'.repeat(300)}`);
    expect(refusal.problems).toHaveLength(100);
    expect(refusal.problemCount).toBe(600);
  });

  it('says what, where, what was expected and what to do', () => {
    expect(refusalOf(GOOD.replace('102.6', '"102,6"')).problems).toEqual([
      {
        code: 'number.decimal-comma',
        file: 'burst-0417.csv',
        line: 6,
        column: 2,
        channel: 'P rim',
        detail: 'burst-0417.csv, line 6, column 2 (P rim): "102,6" is not a number here; the decimal sign is a point.',
        found: '102,6',
        expected: 'a decimal number with a point, such as 101.3',
        action:
          'Export with a decimal point and send the file again, or have a layout that declares the comma read the unread file.',
      },
    ]);
  });
});

describe('layout 1 refuses, by file', () => {
  const MARKED = `\u00ef\u00bb\u00bf`;
  it.each<[string, string | Uint8Array, string, number?]>([
    ['no bytes', '', 'file.empty'],
    ['only a byte order mark', latin1(MARKED), 'file.empty'],
    ['only blanks and line ends', ' \n\r\n  \n', 'file.empty'],
    ['a PDF', '%PDF-1.7\n', 'file.type-mismatch'],
    ['a program', latin1('\x7fELF\x02\x01'), 'file.type-mismatch'],
    ['a picture', latin1('\x89PNG\r\n\x1a\n'), 'file.type-mismatch'],
    ['a spreadsheet', latin1('PK\x03\x04....[Content_Types].xml'), 'file.type-mismatch'],
    ['an open spreadsheet', latin1('PK\x03\x04mimetypeapplication/vnd.oasis.opendocument'), 'file.type-mismatch'],
    ['a photo', latin1('\xff\xd8\xff\xe0'), 'file.type-mismatch'],
    ['a moving picture', 'GIF89a', 'file.type-mismatch'],
    ['a program of another system', latin1('MZ\x90\0'), 'file.type-mismatch'],
    ['HDF5', latin1('\x89HDF\r\n'), 'file.type-mismatch'],
    ['Parquet', 'PAR1', 'file.type-mismatch'],
    ['a database', 'SQLite format 3\0', 'file.type-mismatch'],
    ['a web page', '<!DOCTYPE html><title>Log</title>', 'file.type-mismatch'],
    ['XML', '<?xml version="1.0"?><run/>', 'file.type-mismatch'],
    ['an old spreadsheet', latin1('\xd0\xcf\x11\xe0\xa1\xb1'), 'file.type-mismatch'],
    ['gzip', latin1('\x1f\x8b\x08'), 'file.compressed'],
    ['zip', latin1('PK\x03\x04'), 'file.compressed'],
    ['an empty zip', latin1('PK\x05\x06'), 'file.compressed'],
    ['bzip2', 'BZh91AY&SY', 'file.compressed'],
    ['xz', latin1('\xfd7zXZ\0\0'), 'file.compressed'],
    ['zstd', latin1('\x28\xb5\x2f\xfd'), 'file.compressed'],
    ['7z', latin1('7z\xbc\xaf\x27\x1c'), 'file.compressed'],
    ['rar', 'Rar!\x1a\x07', 'file.compressed'],
    ['UTF-16 with its mark', latin1('\xff\xfet\0i\0'), 'file.encoding', 1],
    ['UTF-16 without', latin1([...GOOD].map((one) => `${one}\0`).join('')), 'file.encoding', 1],
    ['UTF-32', latin1('\xff\xfe\0\0t\0\0\0'), 'file.encoding', 1],
    ['EBCDIC', latin1('\x7b\x40\xa2\x97\x85\x83\x25\xf0\x6b\xf1\x25'), 'file.encoding', 1],
    ['Latin-1 in the header', latin1(GOOD.replace('P rim', 'Druck \xfcber Rand')), 'file.encoding', 4],
    ['an overlong sequence in the data', latin1(GOOD.replace('102.6', '\xc0\xb1')), 'file.encoding', 6],
    ['a cut sequence', latin1(GOOD.replace('102.6', '1\xe2\x82')), 'file.encoding', 6],
    ['a zero byte', GOOD.replace('102.6', '10\u00002.6'), 'file.nul-byte', 6],
    ['a tail of zero bytes', GOOD + '\0'.repeat(5000), 'file.nul-byte', 8],
    ['a long tail of zero bytes', GOOD + '\0'.repeat(200_000), 'file.nul-byte', 8],
    ['a control character', GOOD.replace('102.6', '10\u00072.6'), 'file.control-char', 6],
    ['a line separator', GOOD.replace('102.6', '102.6\u2028'), 'file.control-char', 6],
    ['a paragraph separator', GOOD.replace('102.6', '102.6\u2029'), 'file.control-char', 6],
    ['an escape sequence', GOOD.replace('102.6', '\u001b[31m102.6'), 'file.control-char', 6],
    ['a character cut by the end of the file', latin1(`${GOOD}0.03,1\xe2\x82`), 'file.encoding', 8],
    ['a lone CR in a row', GOOD.replace('102.6', '102\r.6'), 'csv.line-ending', 6],
    ['lone CR throughout', GOOD.replaceAll('\n', '\r'), 'csv.line-ending', 1],
    ['a last line with too few cells', `${GOOD}0.03`, 'file.truncated', 8],
    ['the same with a line end', `${GOOD}0.03\n`, 'file.truncated', 8],
    ['an empty last cell at the end', `${GOOD}0.03,\n`, 'file.truncated', 8],
    ['a number cut at the end', `${GOOD}0.03,-`, 'file.truncated', 8],
    ['a second header', GOOD + GOOD.slice(HEAD.length), 'header.duplicate-row', 8],
    ['two runs in one file', GOOD + GOOD, 'header.duplicate-row', 8],
    ['another delimiter', GOOD.replaceAll(',', ';'), 'csv.delimiter', 4],
    ['tabs', GOOD.replaceAll(',', '\t'), 'csv.delimiter', 4],
    ['a sep= line', `sep=,\n${GOOD}`, 'csv.delimiter', 1],
    ['a changing delimiter', GOOD.replace('0.01,', '0.01;'), 'csv.delimiter', 6],
    ['a row with more cells', GOOD.replace('102.6', '102.6,7'), 'csv.row-width', 6],
    ['a row with fewer cells', GOOD.replace('0.01,102.6', '102.6'), 'csv.row-width', 6],
    ['a blank line among data', GOOD.replace('0.01', '\n0.01'), 'csv.blank-line', 6],
    ['a quote never closed', GOOD.replace('102.6', '"102.6'), 'csv.quote', 6],
    ['a quote inside a cell', GOOD.replace('102.6', '10"2.6'), 'csv.quote', 6],
    ['text after a quote', GOOD.replace('102.6', '"102.6"7'), 'csv.quote', 6],
    ['a quote never closed in the header', GOOD.replace('P rim', '"P rim'), 'csv.quote', 4],
    ['a long line', GOOD.replace('102.6', '1'.repeat(70_000)), 'csv.line-too-long', 6],
    ['a line that never ends', GOOD + '1'.repeat(3_000_000), 'csv.line-too-long', 8],
    ['many columns', GOOD.replace('time [s]', `time [s]${',a [s]'.repeat(200)}`), 'csv.too-many-columns', 4],
  ])('%s', (_, content, code, line) => {
    const refusal = refusalOf(content);
    expect(refusal.problems.map((one) => [one.code, one.line])).toContainEqual([code, line]);
    expect(refusal.code).toBe(code);
    expect(refusal.problems[0]).toMatchObject({ file: 'burst-0417.csv', action: expect.stringMatching(/\.$/) });
  });

  it('points at the column where a quote opened', () => {
    expect(refusalOf(GOOD.replace('102.6', '"102.6')).problems[0]).toMatchObject({ column: 2, found: '"102.6' });
  });

  it('too long or too many rows, on the count', () => {
    expect(refusalOf(GOOD, { bounds: { bytes: 50 } }).code).toBe('file.too-large');
    expect(refusalOf(GOOD, { bounds: { rows: 2 } }).code).toBe('csv.too-many-rows');
    expect(FILE_BOUNDS.lineBytes).toBe(65_536);
  });

  it.each(['', 'a\0b.csv', 'a\nb.csv', 'a\rb.csv', 'x'.repeat(1001)])('a file name like %j', (name) => {
    expect(refusalOf(GOOD, {}, name).code).toBe('file.name-invalid');
  });

  it('no hostile name, and shows it cleaned', () => {
    expect(read(GOOD, {}, '../../<b>CON\u202E.csv').rows).toBe(3);
    expect(refusalOf('', {}, '..\u202E.csv').problems[0]).toMatchObject({ file: '..\\u202E.csv' });
  });
});

describe('layout 1 refuses, by header, units and metadata', () => {
  const header = (text: string) => GOOD.replace('time [s],P rim [kPa]', text);
  it.each<[string, string, string, number?, number?]>([
    ['a preamble', `Logger export, version 3\n${GOOD}`, 'header.missing', 1],
    ['a blank line above the header', GOOD.replace('time', '\ntime'), 'header.missing', 4],
    ['no header', HEAD + ROWS, 'header.missing', 4],
    ['only metadata', HEAD, 'header.missing'],
    ['units in a row of their own', header('time,P rim\ns,kPa'), 'header.missing', 5],
    ['no data', header('time [s],P rim [kPa]').slice(0, -ROWS.length), 'header.no-data', 4],
    ['no data and no line end', header('time [s],P rim [kPa]').slice(0, -ROWS.length - 1), 'header.no-data', 4],
    ['one name twice', header('P rim [kPa],time [s],p  RIM [kPa]'), 'header.duplicate-channel', 4, 3],
    ['one name in another Unicode form', header('time [s],P rim [kPa],Ｐ rim [kPa]'), 'header.duplicate-channel', 4, 3],
    ['one channel under two names', header('time [s],P rim [kPa],rimPressure [kPa]'), 'header.duplicate-channel', 4, 3],
    ['an empty name', header('time [s],P rim [kPa],[kPa]'), 'header.name-invalid', 4, 3],
    ['a numeric name', header('time [s],P rim [kPa],12.5 [kPa]'), 'header.name-invalid', 4, 3],
    ['an over-long name', header(`time [s],P rim [kPa],${'x'.repeat(101)} [kPa]`), 'header.name-invalid', 4, 3],
    ['a hidden character in a name', header('time [s],P rim [kPa],a\u202Eb [kPa]'), 'header.name-invalid', 4, 3],
    ['a control character in a name', header('time [s],P rim [kPa],a\u0007b [kPa]'), 'header.name-invalid', 4, 3],
    ['a needed channel missing', header('time [s],P rim 2 [kPa]'), 'header.missing-channel', 4],
    ['the time missing', header('clock [s],P rim [kPa]'), 'header.missing-channel', 4],
    ['no unit', header('time [s],P rim'), 'unit.missing', 4, 2],
    ['no unit anywhere', header('time,P rim'), 'unit.missing', 4, 1],
    ['an empty unit', header('time [s],P rim []'), 'unit.missing', 4, 2],
    ['an unknown unit', header('time [s],P rim [bananas]'), 'unit.unknown', 4, 2],
    ['two units', header('time [s],P rim [kPa] [bar]'), 'unit.unknown', 4, 2],
    ['free text', header('time [s],P rim [in kPa]'), 'unit.unknown', 4, 2],
    ['a unit of another quantity', header('time [s],P rim [mm]'), 'unit.wrong-dimension', 4, 2],
    ['mPa', header('time [s],P rim [mPa]'), 'unit.ambiguous', 4, 2],
    ['KPA', header('time [s],P rim [KPA]'), 'unit.ambiguous', 4, 2],
    ['psig', header('time [s],P rim [psig]'), 'unit.ambiguous', 4, 2],
    ['C', header('time [s],P rim [kPa],T room [C]'), 'unit.ambiguous', 4, 3],
    ['F', header('time [s],P rim [kPa],T room [F]'), 'unit.ambiguous', 4, 3],
    ['an unknown column without unit', header('time [s],P rim [kPa],extra'), 'unit.missing', 4, 3],
    ['an unknown column with an unknown unit', header('time [s],P rim [kPa],extra [bananas]'), 'unit.unknown', 4, 3],
    ['required metadata missing', GOOD.replace('# rig: R1\n', ''), 'meta.missing'],
    ['a doubled key', `# Specimen: 0418\n${GOOD}`, 'meta.duplicate', 2],
    ['no key', `# just a remark\n${GOOD}`, 'meta.text-invalid', 1],
    ['no value', `# note:\n${GOOD}`, 'meta.text-invalid', 1],
    ['a long value', `# note: ${'x'.repeat(1001)}\n${GOOD}`, 'meta.text-invalid', 1],
    ['a control character in a value', `# note: a\u0007b\n${GOOD}`, 'meta.text-invalid', 1],
    ['too many lines', Array.from({ length: 120 }, (_, i) => `# n${i}: x\n`).join('') + GOOD, 'meta.too-many', 101],
  ])('%s', (_, content, code, line, column) => {
    const { problems } = refusalOf(content.replace(/^(\d\.\d\d,[\d.]+)$/gm, (row) => padded(row, content)));
    expect(problems.map((one) => [one.code, one.line, one.column])).toContainEqual([code, line, column]);
    expect(problems[0]?.code).toBe(code);
    expect(problems.every((one) => one.action !== undefined)).toBe(true);
  });

  it('gives the unit to write, and both readings of a doubtful one', () => {
    expect(refusalOf(header('time [s],P rim')).problems[0]?.detail).toBe(
      'burst-0417.csv, line 4, column 2 (P rim): "P rim" has no unit, and none is assumed. Write one after the name: P rim [kPa].',
    );
    expect(refusalOf(header('time [s],P rim [mPa]')).problems[0]?.expected).toContain('a million pascals');
  });

  it('suggests the nearest name for a column that is missing', () => {
    expect(refusalOf(header('time [s],P rm [kPa]')).problems[0]).toMatchObject({
      code: 'header.missing-channel',
      action: expect.stringContaining('"P rm"'),
    });
  });
});

describe('layout 1 refuses, by number and time', () => {
  it.each([
    ['1,5', 'number.decimal-comma'],
    ['1,234.5', 'number.thousands'],
    ["1'234", 'number.thousands'],
    ['kaputt', 'number.syntax'],
    ['0x1F', 'number.syntax'],
    ['1_000', 'number.syntax'],
    ['12.5 kPa', 'number.syntax'],
    ['#DIV/0!', 'number.syntax'],
    ['--5', 'number.syntax'],
    ['１２', 'number.syntax'],
    ['OL', 'number.syntax'],
    ['OPEN', 'number.syntax'],
    ['Err', 'number.syntax'],
    ['', 'number.missing'],
    ['NaN', 'number.not-finite'],
    ['Infinity', 'number.not-finite'],
    ['1e400', 'number.out-of-range'],
    ['1e21', 'number.out-of-range'],
  ])('%j in a cell: %s', (cell, code) => {
    const written = cell.includes(',') ? `"${cell}"` : cell;
    expect(refusalOf(GOOD.replace('102.6', written)).problems).toMatchObject([
      { code, line: 6, column: 2, channel: 'P rim', found: cell },
    ]);
  });

  it('takes more than fifteen digits', () => {
    expect(read(GOOD.replace('102.6', '102.60000000000000001')).values[1]?.[1]).toBe(102.6);
  });

  it.each([
    ['the same time twice', GOOD.replace('0.01', '0.00'), 'time.duplicate', 6],
    ['a time that goes back', GOOD.replace('0.02', '0.005'), 'time.not-increasing', 7],
    ['a date-time as time', GOOD.replace('0.01', '2031-03-04 09:12:01'), 'number.syntax', 6],
  ])('%s', (_, content, code, line) => {
    expect(refusalOf(content).problems).toMatchObject([{ code, line, column: 1, channel: 'time' }]);
  });
});

describe('layout 1 flags', () => {
  it.each<[string, string, string, number]>([
    ['mixed line ends', GOOD.replace('102.6\n', '102.6\r\n'), 'csv.line-ending', 6],
    ['a last line without its end', GOOD.slice(0, -1), 'file.no-final-newline', 7],
    [
      'a column nobody knows',
      GOOD.replace('P rim [kPa]', 'P rim [kPa],P rim 3 [kPa]').replace(/^(\d.*)$/gm, '$1,1'),
      'header.unknown-channel',
      4,
    ],
  ])('%s', (_, content, code, line) => {
    expect(read(content).flags).toMatchObject([{ code, line, action: expect.any(String) }]);
  });

  it('does not take the end of a CR LF file without its last for a change of line ends', () => {
    expect(read(GOOD.replaceAll('\n', '\r\n').slice(0, -2)).flags).toMatchObject([{ code: 'file.no-final-newline' }]);
  });

  it('suggests the nearest known name', () => {
    const text = GOOD.replace('P rim [kPa]', 'P rim [kPa],T rom [Cel]').replace(/^(\d.*)$/gm, '$1,21');
    expect(read(text).flags[0]?.action).toContain('"T room"');
  });
});

/** As many cells as the header of this content has. */
function padded(row: string, content: string): string {
  const header = content.split('\n').find((line) => line.includes('[') && !line.startsWith('#')) ?? 'a,b';
  const extra = header.split(',').length - 2;
  return extra > 0 ? row + ',1'.repeat(extra) : row;
}
