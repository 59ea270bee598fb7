import { gzipSync } from 'node:zlib';
import { Layout, type MethodChannel, Refusal } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import { expectationOf } from './header.js';
import { type RunTable, readLayout1 } from './layout-1.js';

/*
 * What a layout may declare, both ways: each file is refused where the layout says nothing, and read where it does.
 * All files hold the same three rows in an invented logger's way of writing.
 */
const CHANNELS: MethodChannel[] = [
  { channel: 'rimPressure', kind: 'pressure', required: true, reference: 'gauge' },
  { channel: 'roomTemperature', kind: 'temperature', required: false },
];
const PLAIN = Layout.parse({
  layout: 'R1-log',
  revision: 1,
  rig: 'R1',
  form: 'layout 1',
  time: { column: 'time', kind: 'time' },
  columns: [
    { column: 'P rim', channel: 'rimPressure' },
    { column: 'T room', channel: 'roomTemperature' },
  ],
  requiredMetadata: [],
});
const META = '# specimen: 0417\n# rig: R1\n# started: 2031-03-04T09:12:00Z\n';
const HEADER = 'time [s],P rim [kPa],T room [Cel]\n';
const ROWS = '0,101.3,21\n0.5,1102.6,21.5\n1,2103.9,22\n';
const GOOD = META + HEADER + ROWS;

type Declared = { [Key in keyof Layout]?: unknown };
const utf8 = (text: string) => new TextEncoder().encode(text);
const latin1 = (text: string) => Uint8Array.from(text, (one) => one.charCodeAt(0));
const utf16 = (text: string, little: boolean) =>
  Uint8Array.from(
    [...text].flatMap((one) => {
      const code = one.charCodeAt(0);
      return little ? [code & 255, code >> 8] : [code >> 8, code & 255];
    }),
  );

function read(content: string | Uint8Array, declared: Declared = {}): RunTable {
  const layout = Layout.parse({ ...PLAIN, ...declared });
  const requiredMetadata = layout.metadata === 'none' ? [] : ['specimen', 'rig', 'started'];
  const bytes = typeof content === 'string' ? utf8(content) : content;
  return readLayout1('log.csv', bytes, expectationOf(layout, CHANNELS), { requiredMetadata });
}

function refusal(content: string | Uint8Array, declared: Declared = {}): Refusal {
  try {
    read(content, declared);
  } catch (error) {
    if (error instanceof Refusal) return error;
    throw error;
  }
  throw new Error('was taken');
}
const values = (table: RunTable) => table.values.map((one) => [...one]);
const column = (over: object) => [{ ...PLAIN.columns[0], ...over }, PLAIN.columns[1]];
const time = (over: object) => ({ column: 'time', ...over });
const stamped = (stamps: string[], header = 'time') =>
  META +
  HEADER.replace('time [s]', header) +
  ROWS.split('\n')
    .slice(0, 3)
    .map((row, i) => row.replace(/^[^,]*/, stamps[i] as string))
    .join('\n') +
  '\n';

/** The same with the time of day in a column of its own. */
const inTwo = (stamps: string[], row = (date: string, clock: string) => `${date},${clock}`) =>
  stamped(
    stamps.map((stamp) => row(...(stamp.split(' ') as [string, string]))),
    'time,clock',
  );
const TWO = time({ clockColumn: 'clock', kind: 'date-time', form: 'DD.MM.YYYY hh:mm:ss.f', zone: '+01:00' });

const SEMICOLONS = GOOD.replaceAll(',', ';');
const COMMAS = SEMICOLONS.replaceAll(/(\d)\.(\d)/g, '$1,$2');
const GERMAN = { delimiter: 'semicolon', decimalMark: 'comma' };

describe('what a layout declares is read, and refused without', () => {
  it.each<[string, string | Uint8Array, Declared, string]>([
    ['UTF-16, low byte first', utf16(GOOD, true), { text: { encoding: 'utf-16le' } }, 'file.encoding'],
    ['UTF-16 with its mark', utf16(`\ufeff${GOOD}`, true), { text: { encoding: 'utf-16le' } }, 'file.encoding'],
    ['UTF-16, high byte first', utf16(`\ufeff${GOOD}`, false), { text: { encoding: 'utf-16be' } }, 'file.encoding'],
    ['Latin-1', latin1(`# ort: Pr\xfcfstand\n${GOOD}`), { text: { encoding: 'latin-1' } }, 'file.encoding'],
    ['Windows-1252', latin1(`# note: \x80\n${GOOD}`), { text: { encoding: 'windows-1252' } }, 'file.encoding'],
    ['semicolons', SEMICOLONS, { text: { delimiter: 'semicolon' } }, 'csv.delimiter'],
    ['tabs', GOOD.replaceAll(',', '\t'), { text: { delimiter: 'tab' } }, 'csv.delimiter'],
    ['decimal commas', COMMAS, { text: GERMAN }, 'csv.delimiter'],
    [
      'a thousands comma',
      SEMICOLONS.replace('1102.6', '1,102.6').replace('2103.9', '2,103.9'),
      { text: { delimiter: 'semicolon', thousandsMark: 'comma' } },
      'csv.delimiter',
    ],
    [
      'a thousands point beside a decimal comma',
      COMMAS.replace('1102,6', '1.102,6').replace('2103,9', '2.103,9'),
      { text: { ...GERMAN, thousandsMark: 'point' } },
      'csv.delimiter',
    ],
    ['an apostrophe', GOOD.replace('1102.6', "1'102.6"), { text: { thousandsMark: 'apostrophe' } }, 'number.thousands'],
    [
      'a narrow blank',
      GOOD.replace('1102.6', '1\u202f102.6'),
      { text: { thousandsMark: 'space' } },
      'number.thousands',
    ],
    ['a preamble', `Logger, version 3\n\n${GOOD}`, { text: { preambleLines: 2 } }, 'header.missing'],
    ['a sep= line', `sep=,\n${GOOD}`, { text: { preambleLines: 1 } }, 'csv.delimiter'],
    ['another comment mark', GOOD.replaceAll('# ', '// '), { text: { commentMark: '//' } }, 'header.missing'],
    ['lone carriage returns', GOOD.replaceAll('\n', '\r'), { text: { lineEnds: 'CR' } }, 'csv.line-ending'],
    ['gzip', gzipSync(GOOD), { text: { gzipUpTo: 10_000 } }, 'file.compressed'],
    [
      'units in round brackets',
      GOOD.replace(HEADER, 'time (s),P rim (kPa),T room (Cel)\n'),
      { header: { kind: 'name and unit', brackets: 'round' } },
      'header.missing',
    ],
    [
      'units in a row of their own',
      GOOD.replace(HEADER, 'time,P rim,T room\ns,[kPa],(Cel)\n'),
      { header: { kind: 'units in the next row' } },
      'header.missing',
    ],
    [
      'no header',
      META + ROWS,
      {
        header: {
          kind: 'none',
          columns: [
            { column: 'time', unit: 's' },
            { column: 'P rim', unit: 'kPa' },
            { column: 'T room', unit: 'Cel' },
          ],
        },
      },
      'header.missing',
    ],
    [
      'a unit by another name',
      GOOD.replace('[kPa]', '[Kilo]'),
      { unitNames: [{ written: 'Kilo', unit: 'kPa' }] },
      'unit.unknown',
    ],
    [
      'a unit in other case',
      GOOD.replace('[kPa]', '[KPA]'),
      { unitNames: [{ written: 'KPA', unit: 'kPa' }] },
      'unit.ambiguous',
    ],
    ['a doubtful unit', GOOD.replace('[Cel]', '[C]'), { unitNames: [{ written: 'C', unit: 'Cel' }] }, 'unit.ambiguous'],
    [
      'date-times',
      stamped(['04.03.2031 10:12:00', '04.03.2031 10:12:00,5', '04.03.2031 10:12:01'].map((one) => `"${one}"`)),
      { time: time({ kind: 'date-time', form: 'DD.MM.YYYY hh:mm:ss,f', zone: '+01:00' }) },
      'unit.missing',
    ],
    [
      'date-times by the clock of a named zone',
      stamped(['04.07.2031 11:12:00', '04.07.2031 11:12:00.5', '04.07.2031 11:12:01']),
      { time: time({ kind: 'date-time', form: 'DD.MM.YYYY hh:mm:ss.f', zone: 'Europe/Berlin' }) },
      'unit.missing',
    ],
    [
      'date and time of day in two columns',
      inTwo(['04.03.2031 10:12:00', '04.03.2031 10:12:00.5', '04.03.2031 10:12:01']),
      { time: TWO },
      'unit.missing',
    ],
    [
      'date and time of day in two columns, in quotes and the other way round',
      inTwo(
        ['04.03.2031 10:12:00', '04.03.2031 10:12:00.5', '04.03.2031 10:12:01'],
        (date, clock) => ` "${clock}" ,"${date}"`,
      ),
      { time: { ...TWO, column: 'clock', clockColumn: 'time' } },
      'unit.missing',
    ],
    [
      'date and time of day without a header',
      inTwo(['04.03.2031 10:12:00', '04.03.2031 10:12:00.5', '04.03.2031 10:12:01']).replace(/^time.*\n/m, ''),
      {
        time: TWO,
        header: {
          kind: 'none',
          columns: [
            { column: 'time' },
            { column: 'clock' },
            { column: 'P rim', unit: 'kPa' },
            { column: 'T room', unit: 'Cel' },
          ],
        },
      },
      'header.missing',
    ],
    [
      'sample numbers',
      stamped(['0', '1', '2']),
      { time: time({ kind: 'sample number', rate: { value: 2, unit: 'Hz' } }) },
      'unit.missing',
    ],
    [
      'an epoch',
      stamped(['1930381920000', '1930381920500', '1930381921000']),
      { time: time({ kind: 'epoch', unit: 'ms' }) },
      'unit.missing',
    ],
  ])('%s', (_, content, declared, code) => {
    expect(refusal(content).problems[0]?.code).toBe(code);
    const table = read(content, declared);
    expect(table.flags).toEqual([]);
    expect(table.columns.map(({ unit }) => unit)).toEqual(['s', 'kPa', 'Cel']);
    expect(values(table)).toEqual([
      [0, 0.5, 1],
      [101.3, 1102.6, 2103.9],
      [21, 21.5, 22],
    ]);
  });

  const LONG = META + HEADER + Array.from({ length: 120_000 }, (_, i) => `${i},101.3,21\n`).join('');
  it.each<[string, Uint8Array, Declared]>([
    ['lone carriage returns', utf8(LONG.replaceAll('\n', '\r')), { text: { lineEnds: 'CR' } }],
    ['in Latin-1', latin1(LONG.replaceAll('\n', '\r')), { text: { lineEnds: 'CR', encoding: 'latin-1' } }],
    ['UTF-16', utf16(LONG, true), { text: { encoding: 'utf-16le' } }],
    ['gzip', gzipSync(LONG), { text: { gzipUpTo: 10_000_000 } }],
  ])('leaves the bytes of a long file as they were sent: %s', (_, bytes, declared) => {
    const sent = Buffer.from(bytes);
    expect(read(sent, declared).rows).toBe(120_000);
    expect(sent.equals(bytes)).toBe(true);
  });

  it('a column that the method does not know, by naming it', () => {
    const content = GOOD.replace(HEADER, HEADER.replace('\n', ',Zusatz [1]\n')).replaceAll(/^(\d.*)$/gm, '$1,7');
    expect(read(content).flags).toMatchObject([{ code: 'header.unknown-channel', line: 4, column: 4 }]);
    const named = read(content, { columns: [...PLAIN.columns, { column: 'Zusatz', channel: 'extra' }] });
    expect(named.flags).toEqual([]);
    expect([...(named.values[3] ?? [])]).toEqual([7, 7, 7]);
  });

  it('a file without metadata', () => {
    expect(refusal(HEADER + ROWS).problems.map(({ code }) => code)).toEqual(Array(3).fill('meta.missing'));
    expect(read(`# a remark\n${HEADER}${ROWS}`, { metadata: 'none' }).rows).toBe(3);
  });

  it('psig as gauge pressure, and not where the method records absolute pressure', () => {
    const content = GOOD.replace('[kPa]', '[psig]');
    expect(refusal(content).code).toBe('unit.ambiguous');
    const mapped = (reference: string) => ({ unitNames: [{ written: 'psig', unit: '[psi]', reference }] });
    expect(read(content, mapped('gauge')).columns[1]?.unit).toBe('[psi]');
    expect(refusal(content, mapped('absolute')).code).toBe('unit.wrong-dimension');
  });

  it('repeated stamps, spread evenly up to the next', () => {
    const content = `${META + HEADER + ['0,1,21', '0,2,21', '1,3,21', '1,4,21', '2,5,21', '2,6,21'].join('\n')}\n`;
    expect(refusal(content).problems.map(({ code }) => code)).toEqual(Array(3).fill('time.duplicate'));
    const table = read(content, { time: time({ kind: 'time', repeatedStamps: 'spread evenly' }) });
    expect([...(table.values[0] ?? [])]).toEqual([0, 0.5, 1, 1.5, 2, 2.5]);
  });

  it('begins in the middle of a repeated stamp', () => {
    const content = `${META + HEADER + ['0,2,21', '1,3,21', '1,4,21', '2,5,21', '2,6,21'].join('\n')}\n`;
    const table = read(content, { time: time({ kind: 'time', repeatedStamps: 'spread evenly' }) });
    expect([...(table.values[0] ?? [])]).toEqual([0.5, 1, 1.5, 2, 2.5]);
  });

  it.each(['OL', 'OPEN', ''])('%j where there is no reading, in its own column alone', (token) => {
    const content = GOOD.replace('1102.6', token);
    expect(refusal(content).code).toBe(token === '' ? 'number.missing' : 'number.syntax');
    const declared = { columns: column({ noReading: [token] }) };
    expect(values(read(content, declared))[1]).toEqual([101.3, Number.NaN, 2103.9]);
    expect(refusal(GOOD.replace('21.5', token), declared).code).toBe(token === '' ? 'number.missing' : 'number.syntax');
    expect(refusal(content.replace(/^0.5/m, token), declared).problems[0]?.column).toBe(1);
  });

  it('an empty last cell where blank says that nothing was sampled', () => {
    const declared = { columns: [PLAIN.columns[0], { ...PLAIN.columns[1], noReading: [''] }] };
    const content = GOOD.replace('2103.9,22\n', '2103.9,\n');
    expect(refusal(content).code).toBe('file.truncated');
    expect(values(read(content, declared))[2]).toEqual([21, 21.5, Number.NaN]);
    expect(refusal(GOOD.replace('2103.9,22\n', '2103.9\n'), declared).code).toBe('file.truncated');
  });

  it('the instant of the first row, where stamps say it', () => {
    const epoch = read(stamped(['1930381920000', '1930381920500', '1930381921000']), {
      time: time({ kind: 'epoch', unit: 'ms' }),
    });
    expect(new Date(epoch.firstInstant ?? 0).toISOString()).toBe('2031-03-04T09:12:00.000Z');
    const form = { kind: 'date-time', form: 'YYYY/MM/DD hh:mm:ss', zone: '+01:00' };
    const table = read(stamped(['2031/03/04 10:12:00', '2031/03/04 10:12:01', '2031/03/04 10:12:02']), {
      time: time(form),
    });
    expect(new Date(table.firstInstant ?? 0).toISOString()).toBe('2031-03-04T09:12:00.000Z');
    expect(read(GOOD).firstInstant).toBeUndefined();
  });
});

describe('what a layout does not allow stays refused under it', () => {
  const inner = gzipSync(GOOD);
  const gzip = { text: { gzipUpTo: 10_000 } };
  it.each<[string, string | Uint8Array, Declared, string, number?]>([
    [
      'half a surrogate pair',
      utf16(GOOD.replace('T room', 'T\ud800room'), true),
      { text: { encoding: 'utf-16le' } },
      'file.encoding',
      4,
    ],
    [
      'half a character at the end',
      utf16(GOOD, true).subarray(0, -1),
      { text: { encoding: 'utf-16le' } },
      'file.encoding',
      7,
    ],
    ['the other byte order', utf16(`\ufeff${GOOD}`, false), { text: { encoding: 'utf-16le' } }, 'file.encoding', 1],
    [
      'a zero character',
      utf16(GOOD.replace('101.3', '10\u00001.3'), true),
      { text: { encoding: 'utf-16le' } },
      'file.nul-byte',
      5,
    ],
    [
      'a byte that Windows-1252 has no letter for',
      latin1(GOOD.replace('101.3', '10\x811.3')),
      { text: { encoding: 'windows-1252' } },
      'file.control-char',
      5,
    ],
    [
      'a line feed among carriage returns',
      GOOD.replace('\n0.5', '\r0.5').replaceAll('\n', '\r').replace('\r1,', '\n1,'),
      { text: { lineEnds: 'CR' } },
      'csv.line-ending',
      6,
    ],
    ['a gzip file cut short', inner.subarray(0, -5), gzip, 'file.compressed'],
    [
      'a gzip file with a wrong checksum',
      inner.with(inner.length - 6, 255 - (inner.at(-6) ?? 0)),
      gzip,
      'file.compressed',
    ],
    ['gzip within gzip', gzipSync(inner), gzip, 'file.compressed'],
    ['two gzip files in one', new Uint8Array([...inner, ...inner]), gzip, 'file.compressed'],
    ['zip', latin1('PK\x03\x04'), gzip, 'file.compressed'],
    ['a gzip bomb', gzipSync(new Uint8Array(50_000_000)), gzip, 'file.too-large'],
    [
      'a point where the decimal sign is a comma',
      COMMAS.replace('1102,6', '1102.6'),
      { text: GERMAN },
      'number.syntax',
      6,
    ],
    [
      'thousands marks out of place',
      GOOD.replace('1102.6', "11'02.6"),
      { text: { thousandsMark: 'apostrophe' } },
      'number.syntax',
      6,
    ],
    ['commas where cells are parted by semicolons', GOOD, { text: { delimiter: 'semicolon' } }, 'csv.delimiter', 4],
    [
      'a row parted otherwise',
      SEMICOLONS.replace('0.5;', '0.5,'),
      { text: { delimiter: 'semicolon' } },
      'csv.delimiter',
      6,
    ],
    [
      'fewer units than names',
      GOOD.replace(HEADER, 'time,P rim,T room\ns,kPa\n'),
      { header: { kind: 'units in the next row' } },
      'header.missing',
      5,
    ],
    [
      'an empty unit in its row',
      GOOD.replace(HEADER, 'time,P rim,T room\ns,,Cel\n'),
      { header: { kind: 'units in the next row' } },
      'unit.missing',
      5,
    ],
    [
      'a unit in the header of a date-time',
      stamped(['04.03.2031 10:12:00'], 'time [s]'),
      { time: time({ kind: 'date-time', form: 'DD.MM.YYYY hh:mm:ss', zone: 'Z' }) },
      'unit.wrong-dimension',
      4,
    ],
    ...['2031-02-30 10:12:00', '2031-03-04 25:12:00', '0000-03-04 10:12:00', '2031-13-04 10:12:00'].map(
      (stamp): [string, string, Declared, string, number] => [
        `a day or an hour that does not exist: ${stamp}`,
        stamped([stamp], 'time'),
        { time: time({ kind: 'date-time', form: 'YYYY-MM-DD hh:mm:ss', zone: 'Z' }) },
        'meta.date',
        5,
      ],
    ),
    [
      'a time that the clock of its zone leaves out',
      stamped(['2026-03-29 02:30:00'], 'time'),
      { time: time({ kind: 'date-time', form: 'YYYY-MM-DD hh:mm:ss', zone: 'Europe/Berlin' }) },
      'meta.date',
      5,
    ],
    [
      'a time that the clock of its zone shows twice',
      stamped(['2026-10-25 01:59:59', '2026-10-25 02:30:00'], 'time'),
      { time: time({ kind: 'date-time', form: 'YYYY-MM-DD hh:mm:ss', zone: 'Europe/Berlin' }) },
      'meta.date',
      6,
    ],
    ['a day that does not exist, in two columns', inTwo(['30.02.2031 10:12:00']), { time: TWO }, 'meta.date', 5],
    [
      'a date without its time of day',
      inTwo(['04.03.2031 10:12:00', '04.03.2031 ']),
      { time: TWO },
      'number.syntax',
      6,
    ],
    ['no column for the time of day', stamped(['04.03.2031 10:12:00']), { time: TWO }, 'header.missing-channel', 4],
    [
      'a unit of the time of day',
      inTwo(['04.03.2031 10:12:00']).replace('clock', 'clock [s]'),
      { time: TWO },
      'unit.wrong-dimension',
      4,
    ],
    [
      'a stamp of another form',
      stamped(['2031/03/04 10:12:00'], 'time'),
      { time: time({ kind: 'date-time', form: 'YYYY-MM-DD hh:mm:ss', zone: 'Z' }) },
      'number.syntax',
      5,
    ],
    [
      'a mapped unit of another quantity',
      GOOD.replace('[kPa]', '[X]'),
      { unitNames: [{ written: 'X', unit: 'mm' }] },
      'unit.wrong-dimension',
      4,
    ],
    [
      'a time that goes back',
      GOOD.replace(/^1,/m, '0.2,'),
      { time: time({ kind: 'time', repeatedStamps: 'spread evenly' }) },
      'time.not-increasing',
      7,
    ],
    [
      'a headerless row of another width',
      `${META}${ROWS.replace(',21.5', '')}`,
      {
        header: {
          kind: 'none',
          columns: [
            { column: 'time', unit: 's' },
            { column: 'P rim', unit: 'kPa' },
            { column: 'T room', unit: 'Cel' },
          ],
        },
      },
      'csv.row-width',
      5,
    ],
  ])('%s', (_, content, declared, code, line) => {
    const { problems } = refusal(content, declared);
    expect(problems.map((one) => [one.code, one.line])).toContainEqual([code, line]);
    expect(problems[0]).toMatchObject({ file: 'log.csv', action: expect.stringMatching(/\.$/) });
  });

  it.each<[string, object]>([
    ['one comma for cells and decimals', { text: { decimalMark: 'comma' } }],
    ['one comma for cells and thousands', { text: { thousandsMark: 'comma' } }],
    ['one mark for decimals and thousands', { text: { ...GERMAN, thousandsMark: 'comma' } }],
    ['a form without its day', { time: time({ kind: 'date-time', form: 'YYYY-MM hh:mm:ss', zone: 'Z' }) }],
    ...['CET', 'Europe/Atlantis', '+15:00', '01:00', ''].map((zone): [string, object] => [
      `a zone that is none: "${zone}"`,
      { time: time({ kind: 'date-time', form: 'YYYY-MM-DD hh:mm:ss', zone }) },
    ]),
    ['date and time of day in one column twice', { time: { ...TWO, clockColumn: 'time' } }],
    ['a column without a unit and without a header', { header: { kind: 'none', columns: [{ column: 'P rim' }] } }],
    ['metadata asked of a file without any', { metadata: 'none', requiredMetadata: ['medium'] }],
    ['a scale of nothing', { columns: column({ scale: 0 }) }],
  ])('no layout declares %s', (_, declared) => {
    expect(Layout.safeParse({ ...PLAIN, ...declared }).success).toBe(false);
  });
});
