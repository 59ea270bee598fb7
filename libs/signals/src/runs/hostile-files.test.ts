import { gzipSync } from 'node:zlib';
import { Layout, Refusal } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import { proposeLayout } from '../files/propose-layout.js';
import { surveyFile } from '../files/survey-file.js';
import { inventedRun, seededUniform } from './invented-run.fixture.js';
import { readRun } from './read-run.js';

/*
 * Files that were changed anywhere: each is read or refused with a code, whole and in pieces, and nothing else happens.
 * 2 800 mutations here; BREAKBOOK_MUTATIONS=100000 npx vitest run libs/signals/src/runs/hostile-files.test.ts makes as
 * many as it says, with as much more time for them.
 */
const MUTATIONS = Number(process.env.BREAKBOOK_MUTATIONS ?? 2800);
const TIME_LIMIT = Math.max(180_000, 40 * MUTATIONS);
/** No file of a few kilobytes may take so long, ms, on a machine that is busy. */
const HANGS = 5000;
const MOST_MEMORY = 600 * 2 ** 20;

// Bytes that hurt: separators, signs, quotes, controls, halves of UTF-8, digits.
const HURTFUL = [...new TextEncoder().encode(',;\t\n\r"\'#.-+eE0 9[]()OL\u0000\u2028é\ufeff'), 0xff, 0xc0, 0x80, 0xd8];

const input = inventedRun({ rate: 10, seconds: 20, pressure: (t) => (t < 3 ? 0 : t < 15 ? 40 * (t - 3) : 0) });
const [file] = input.files;
if (!file || !input.layout) throw new Error('an invented run has a file and a layout');
const { layout } = input;
const plain = new TextDecoder().decode(file.bytes);
const rows = (change: (cells: string[], index: number) => string) => {
  const [head, body] = [plain.slice(0, plain.indexOf('\n0,')), plain.slice(plain.indexOf('\n0,') + 1).trimEnd()];
  return {
    head,
    body: body
      .split('\n')
      .map((row, index) => change(row.split(','), index))
      .join('\n'),
  };
};
const withHead = ({ head, body }: { head: string; body: string }) => `${head}\n${body}\n`;
const latin1 = (text: string) => Uint8Array.from(text, (one) => one.charCodeAt(0));
const utf16 = (text: string) =>
  Uint8Array.from([...text].flatMap((one) => [one.charCodeAt(0) & 255, one.charCodeAt(0) >> 8]));
const stamp = (tenths: number) => new Date(Date.UTC(2031, 2, 4, 10, 12) + 100 * tenths).toISOString().slice(0, 23);
const lisbon = (tenths: number) => new Date(Date.UTC(2031, 9, 26, 0, 12) + 100 * tenths).toISOString().slice(0, 23);
const tokens = { columns: layout.columns.map((one) => ({ ...one, noReading: ['OL', ''] })) };

/** One way of writing the same run, with the layout that reads it, and what is packed after it was changed. */
const WAYS: { name: string; bytes: Uint8Array; layout: Layout; pack?: boolean }[] = [
  { name: 'layout 1', bytes: file.bytes, layout },
  {
    name: 'semicolons, decimal commas and stamps',
    bytes: latin1(
      withHead(rows((cells, i) => [stamp(i), ...cells.slice(1)].join(';').replaceAll('.', ',')))
        .replaceAll(',P rim', ';P rim')
        .replace('time [s]', 'time'),
    ),
    layout: {
      ...layout,
      text: { encoding: 'windows-1252', delimiter: 'semicolon', decimalMark: 'comma', thousandsMark: 'point' },
      time: { column: 'time', kind: 'date-time', form: 'YYYY-MM-DDThh:mm:ss,f', zone: '+01:00' },
    },
  },
  {
    name: 'date and time of day apart, by the clock of a zone',
    bytes: new TextEncoder().encode(
      // The clock is set back an hour later: a changed digit falls into the hour that comes twice.
      withHead(rows((cells, i) => [lisbon(i).replace('T', ','), ...cells.slice(1)].join(','))).replace(
        'time [s]',
        'date,clock',
      ),
    ),
    layout: {
      ...layout,
      time: {
        column: 'date',
        clockColumn: 'clock',
        kind: 'date-time',
        form: 'YYYY-MM-DD hh:mm:ss.f',
        zone: 'Europe/Lisbon',
      },
    },
  },
  {
    name: 'UTF-16 with tabs and a row of units',
    bytes: utf16(
      plain.replace('time [s],P rim [kPa],P rim 2 [kPa]', 'time,P rim,P rim 2\ns,kPa,kPa').replaceAll(',', '\t'),
    ),
    layout: { ...layout, text: { encoding: 'utf-16le', delimiter: 'tab' }, header: { kind: 'units in the next row' } },
  },
  {
    name: 'no header, lone CR and tokens',
    bytes: new TextEncoder().encode(
      `${
        rows((cells, i) =>
          cells
            .with(2, i % 3 ? '' : (cells[2] as string))
            .with(1, i === 9 ? 'OL' : (cells[1] as string))
            .join(','),
        ).body
      }\n`.replaceAll('\n', '\r'),
    ),
    layout: {
      ...layout,
      ...tokens,
      text: { lineEnds: 'CR' },
      header: {
        kind: 'none',
        columns: ['time', 'P rim', 'P rim 2'].map((column, i) => ({ column, unit: i ? 'kPa' : 's' })),
      },
      requiredMetadata: [],
      metadata: 'none',
    },
  },
  { name: 'gzip', bytes: gzipSync(file.bytes), layout: { ...layout, text: { gzipUpTo: 100_000 } } },
  { name: 'inside gzip', bytes: file.bytes, layout: { ...layout, text: { gzipUpTo: 100_000 } }, pack: true },
];

function mutated(from: Uint8Array, uniform: () => number): Uint8Array {
  const pick = (n: number) => Math.floor(uniform() * n);
  let bytes = Array.from(from);
  for (let change = 0; change <= pick(3); change++) {
    // Half of the changes hit the head of the file, where one byte means most.
    const at = uniform() < 0.5 ? pick(140) : pick(bytes.length);
    const kind = pick(5);
    if (kind === 0) bytes[at] = HURTFUL[pick(HURTFUL.length)] as number;
    else if (kind === 1) bytes.splice(at, 0, HURTFUL[pick(HURTFUL.length)] as number);
    else if (kind === 2) bytes.splice(at, 1 + pick(30));
    else if (kind === 3) bytes = bytes.slice(0, at);
    else bytes.splice(at, 0, ...bytes.slice(at, at + pick(200)));
  }
  return Uint8Array.from(bytes, (byte) => byte ?? 0);
}

/** What became of it: nothing where it was done, the codes where it was refused; anything else is thrown on. */
async function codesOf(what: string, work: () => unknown): Promise<string[] | undefined> {
  const begun = performance.now();
  try {
    await work();
    return undefined;
  } catch (error) {
    if (!(error instanceof Refusal)) throw new Error(`${what}: ${String(error)}`, { cause: error });
    expect(error.problems.length).toBeGreaterThan(0);
    return error.problems.map(({ code }) => code);
  } finally {
    expect(performance.now() - begun, what).toBeLessThan(HANGS);
  }
}

function* inPieces(bytes: Uint8Array, length: number) {
  for (let at = 0; at < bytes.length; at += length) yield bytes.subarray(at, at + length);
}

describe('a file that was changed anywhere', () => {
  it.each(WAYS)(
    'is read or refused: $name',
    { timeout: TIME_LIMIT },
    async ({ name, bytes: whole, layout: declared, pack }) => {
      const using = Layout.parse(declared);
      const readAs = (bytes: Uint8Array) =>
        readRun({ ...input, layout: using, files: [{ ...file, bytes: pack ? gzipSync(bytes) : bytes }] });
      expect(readAs(whole).reading.characteristics.length).toBeGreaterThan(0);

      const uniform = seededUniform(417);
      const codes = new Set<string>();
      let [read, refused] = [0, 0];
      const before = process.memoryUsage().rss;
      for (let round = 0; round < MUTATIONS / WAYS.length; round++) {
        const bytes = mutated(whole, uniform);
        const found = await codesOf(`${name}, mutation ${round}`, () => readAs(bytes));
        const sent = pack ? gzipSync(bytes) : bytes;
        await codesOf(`${name}, survey ${round}`, () =>
          surveyFile('run-42.csv', inPieces(sent, 1 + (round % 997)), using),
        );
        await codesOf(`${name}, proposal ${round}`, () => proposeLayout('run-42.csv', [bytes]));
        if (found) refused++;
        else read++;
        for (const code of found ?? []) codes.add(code);
      }
      expect(process.memoryUsage().rss - before).toBeLessThan(MOST_MEMORY);
      // Both ways must have been walked for the run to mean anything; hardly a changed gzip file passes its checksum.
      const packed = using.text?.gzipUpTo !== undefined && !pack;
      expect(read).toBeGreaterThan(packed ? -1 : 5);
      expect(refused).toBeGreaterThan(100);
      expect(codes.size).toBeGreaterThan(packed ? 0 : 8);
    },
  );
});
