import { gzipSync } from 'node:zlib';
import { Layout, type MethodChannel, Refusal } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import { expectationOf } from './header.js';
import { readLayout1 } from './layout-1.js';
import { proposeLayout } from './propose-layout.js';

/*
 * Files as invented loggers write them. Each proposal, once filled in by hand, must read its own file: 20 rows, the
 * pressure first 101.3 kPa and last 1101.3 kPa.
 */
const CHANNELS: MethodChannel[] = [{ channel: 'rimPressure', kind: 'pressure', required: true, reference: 'gauge' }];
const META = '# specimen: 0417\n# rig: R1\n# started: 2031-03-04T09:12:00Z\n';
const two = (number: number) => String(number).padStart(2, '0');
const pressure = (i: number) => (101.3 + (i * 1000) / 19).toFixed(2);
const rows = (row: (i: number) => string) => Array.from({ length: 20 }, (_, i) => row(i)).join('\n');
const latin1 = (text: string) => Uint8Array.from(text, (one) => one.charCodeAt(0));
const utf16 = (text: string) =>
  Uint8Array.from([...text].flatMap((one) => [one.charCodeAt(0) & 255, one.charCodeAt(0) >> 8]));
const comma = (text: string) => text.replace('.', ',');

/** As a person fills a proposal in: keys, channels, and what `over` says. */
function filled(layout: Record<string, unknown>, over: object): Layout {
  const columns = layout.columns as { column: string; noReading?: string[] }[];
  return Layout.parse({
    ...layout,
    layout: 'R1-log',
    rig: 'R1',
    columns: columns
      .filter(({ column }) => /^(P|Druck)/.test(column))
      .map((one) => ({ ...one, channel: 'rimPressure' })),
    ...over,
  });
}

/** A file that goes on for ever: it must be left after its first megabyte. */
function* endless() {
  yield new TextEncoder().encode(`time [s],P [kPa]\n`);
  for (let row = 0; ; row += 1000)
    yield new TextEncoder().encode(Array.from({ length: 1000 }, (_, i) => `${row + i},1.5\n`).join(''));
}

describe('the layout proposed for a logger’s file', () => {
  it.each<[string, string | Uint8Array, { doubts: string[]; layout: object; fill: object }]>([
    [
      'that is layout 1 already',
      `${META}time [s],P rim [kPa]\n${rows((i) => `${i / 10},${pressure(i)}`)}\n`,
      { doubts: [], layout: {}, fill: {} },
    ],
    [
      'with semicolons, decimal commas, a preamble, units below and clock stamps',
      latin1(
        `Logger A7\nPr\xfcfstand;2\n\nZeit;P rim\n;kPa\n${rows((i) => `${two(20 + (i > 9 ? 1 : 0))}.03.2031 10:12:${two(i)},5;${comma(pressure(i))}`)}\n`,
      ),
      {
        doubts: ['no UTF-8'],
        layout: {
          text: { encoding: 'latin-1', delimiter: 'semicolon', decimalMark: 'comma', preambleLines: 3 },
          header: { kind: 'units in the next row' },
          time: { column: 'Zeit', kind: 'date-time', form: 'DD.MM.YYYY hh:mm:ss,f', zone: '' },
          metadata: 'none',
        },
        fill: { time: { column: 'Zeit', kind: 'date-time', form: 'DD.MM.YYYY hh:mm:ss,f', zone: '+01:00' } },
      },
    ],
    [
      'with date and time of day in two columns',
      `Date;Clock;P rim [kPa]\n${rows((i) => `2031-03-${two(20 + (i > 9 ? 1 : 0))};10:12:${two(i)}.250;${pressure(i)}`)}\n`,
      {
        doubts: [],
        layout: {
          text: { delimiter: 'semicolon' },
          time: { column: 'Date', clockColumn: 'Clock', kind: 'date-time', form: 'YYYY-MM-DD hh:mm:ss.f', zone: '' },
          columns: [{ column: 'P rim', channel: '' }],
        },
        fill: {
          time: {
            column: 'Date',
            clockColumn: 'Clock',
            kind: 'date-time',
            form: 'YYYY-MM-DD hh:mm:ss.f',
            zone: 'Europe/Berlin',
          },
        },
      },
    ],
    [
      'in UTF-16 with tabs, round brackets and a unit of its own',
      utf16(`\ufeffTime (s)\tP1 (kilo)\n${rows((i) => `${i / 10}\t${pressure(i)}`)}\n`),
      {
        doubts: ['"kilo" is no UCUM code'],
        layout: {
          text: { encoding: 'utf-16le', delimiter: 'tab' },
          header: { kind: 'name and unit', brackets: 'round' },
          unitNames: [{ written: 'kilo', unit: '' }],
          metadata: 'none',
        },
        fill: { unitNames: [{ written: 'kilo', unit: 'kPa' }] },
      },
    ],
    [
      'without a header, counting samples',
      rows((i) => `${i},${pressure(i)}`),
      {
        doubts: ['No column is named as a time'],
        layout: {
          header: {
            kind: 'none',
            columns: [
              { column: 'column 1', unit: '' },
              { column: 'column 2', unit: '' },
            ],
          },
          time: { kind: 'sample number' },
        },
        fill: {
          header: {
            kind: 'none',
            columns: [
              { column: 'column 1', unit: '1' },
              { column: 'column 2', unit: 'kPa' },
            ],
          },
          time: { column: 'column 1', kind: 'sample number', rate: { value: 10, unit: 'Hz' } },
          columns: [{ column: 'column 2', channel: 'rimPressure' }],
        },
      },
    ],
    [
      'packed, with lone carriage returns, and words for no reading',
      gzipSync(
        `${META}time [s],P rim [kPa]\n${rows((i) => `${i / 10},${i === 7 ? 'OL' : pressure(i)}`)}\n`.replaceAll(
          '\n',
          '\r',
        ),
      ),
      {
        doubts: ['"OL" beside numbers'],
        layout: { text: { lineEnds: 'CR' }, columns: [{ column: 'P rim', channel: '', noReading: ['OL'] }] },
        fill: {},
      },
    ],
  ])('%s', async (_, content, { doubts, layout, fill }) => {
    const bytes = typeof content === 'string' ? new TextEncoder().encode(content) : content;
    const proposal = await proposeLayout('log.csv', [bytes]);
    expect(proposal.layout).toMatchObject(layout);
    expect(proposal.doubts).toEqual(doubts.map((doubt) => expect.stringContaining(doubt)));
    // Nothing was made up: what is left empty is refused until a person fills it in.
    expect(Layout.safeParse(proposal.layout).success).toBe(false);

    const finished = filled(proposal.layout, fill);
    const table = readLayout1('log.csv', bytes, expectationOf(finished, CHANNELS), { requiredMetadata: [] });
    const read = table.values[table.columns.findIndex(({ carries }) => 'channel' in carries)];
    expect([table.rows, read?.[0], read?.at(-1)]).toEqual([20, 101.3, 1101.3]);
  });

  it('asks where day and month, or a thousands and a decimal mark, could change places', async () => {
    const dated = `time,P [kPa]\n${rows((i) => `04/03/2031 10:12:${two(i)},${pressure(i)}`)}\n`;
    const doubtsOf = async (text: string) =>
      (await proposeLayout('a.csv', [new TextEncoder().encode(text)])).doubts.join();
    expect(await doubtsOf(dated)).toContain('either way round');
    const marked = `time [s];P [kPa]\n${rows((i) => `${i};${i + 1},${100 + i}`)}\n`;
    expect(await doubtsOf(marked)).toContain('"1,100" was taken as a decimal');
  });

  it.each<[string, string | Uint8Array, string]>([
    ['a PDF', '%PDF-1.7\n', 'file.type-mismatch'],
    ['nothing', '', 'header.missing'],
    ['prose', 'This is a letter,\nand no record.\n', 'header.missing'],
    ['a broken gzip file', latin1('\x1f\x8b\x08'), 'file.compressed'],
  ])('is none for %s', async (_, content, code) => {
    const bytes = typeof content === 'string' ? new TextEncoder().encode(content) : content;
    const refused = proposeLayout('a.csv', [bytes]);
    await expect(refused).rejects.toThrow(Refusal);
    await expect(refused).rejects.toThrow(expect.objectContaining({ code }));
  });

  it('looks at the first megabyte of a file, and at no more', async () => {
    expect((await proposeLayout('a.csv', endless())).columns.map(({ name }) => name)).toEqual(['time', 'P']);
  });
});
