import { createHash } from 'node:crypto';
import { gzipSync } from 'node:zlib';
import { Layout, type MethodChannel, Refusal } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import { expectationOf } from './header.js';
import { readLayout1 } from './layout-1.js';
import { type PiecesRead, readPieces } from './read-pieces.js';
import { surveyFile } from './survey-file.js';

/*
 * A file in pieces is the same file: every content below is read whole and in pieces of several lengths, and both say
 * the same, number for number or problem for problem.
 */
const CHANNELS: MethodChannel[] = [{ channel: 'rimPressure', kind: 'pressure', required: true, reference: 'gauge' }];
const PLAIN = Layout.parse({
  layout: 'R1-log',
  revision: 1,
  rig: 'R1',
  form: 'layout 1',
  time: { column: 'time', kind: 'time' },
  columns: [{ column: 'P rim', channel: 'rimPressure', noReading: ['OL'] }],
  requiredMetadata: [],
});
const PACKED = Layout.parse({ ...PLAIN, text: { gzipUpTo: 300_000 } });
const HEAD = '# specimen: 0417\n# rig: R1\n# started: 2031-03-04T09:12:00Z\ntime [s],P rim [kPa]\n';
const rows = (count: number) => Array.from({ length: count }, (_, i) => `${i / 100},${(i * 37) % 1000}.5\n`).join('');
const GOOD = HEAD + rows(6000);
const bytesOf = (text: string) => new TextEncoder().encode(text);
const OPTIONS = { requiredMetadata: ['specimen', 'rig', 'started'] };
const NOTHING_LEFT = { onBlock: () => undefined };

function* cut(bytes: Uint8Array, length: number) {
  for (let at = 0; at < bytes.length; at += length) yield bytes.slice(at, at + length);
}

async function inPieces(bytes: Uint8Array, length: number, layout: Layout) {
  const columns: number[][] = [];
  const read = await readPieces('log.csv', cut(bytes, length), expectationOf(layout, CHANNELS), {
    ...OPTIONS,
    onBlock: (block) => {
      for (const [index, values] of block.entries()) {
        columns[index] ??= [];
        columns[index].push(...values);
      }
    },
  });
  return { read, columns };
}

function problemsOf(error: unknown) {
  if (error instanceof Refusal) return { problems: error.problems, count: error.problemCount };
  throw error;
}

describe('a file in pieces', () => {
  it.each<[string, Uint8Array, Layout]>([
    ['as text', bytesOf(GOOD), PLAIN],
    ['as text where it may be packed', bytesOf(GOOD), PACKED],
    ['packed', gzipSync(GOOD), PACKED],
    ['with rows without a reading', bytesOf(GOOD.replaceAll(',37.5', ',OL')), PLAIN],
    ['with a last line that has no end', bytesOf(GOOD.slice(0, -1)), PLAIN],
  ])('is read as it is whole: %s', async (_, bytes, layout) => {
    const whole = readLayout1('log.csv', bytes, expectationOf(layout, CHANNELS), OPTIONS);
    for (const length of [61, 4096, bytes.length]) {
      const { read, columns } = await inPieces(bytes, length, layout);
      expect(columns).toEqual(whole.values.map((one) => [...one]));
      const { values: _values, digests: _digests, ...said } = whole;
      expect(read).toEqual({
        ...said,
        bytes: bytes.length,
        sha256: createHash('sha256').update(bytes).digest('hex'),
      } satisfies PiecesRead);
    }
  });

  const packed = gzipSync(GOOD);
  const followed = (...more: Uint8Array[]) => Uint8Array.from(Buffer.concat([packed, ...more]));
  it.each<[string, Uint8Array, Layout, string]>([
    ['nothing', bytesOf(''), PACKED, 'file.empty'],
    ['one byte', bytesOf('x'), PACKED, 'header.missing'],
    ['packed where no layout says so', packed, PLAIN, 'file.compressed'],
    ['packed and cut', packed.subarray(0, -5), PACKED, 'file.compressed'],
    ['packed and cut after its mark', packed.subarray(0, 2), PACKED, 'file.compressed'],
    ['packed with a wrong checksum', packed.with(packed.length - 6, 1), PACKED, 'file.compressed'],
    ['packed with a wrong length', packed.with(packed.length - 1, 1), PACKED, 'file.compressed'],
    ['packed twice', gzipSync(packed), PACKED, 'file.compressed'],
    ['two packed files', followed(packed), PACKED, 'file.compressed'],
    ['packed, then text', followed(bytesOf(GOOD)), PACKED, 'file.compressed'],
    ['packed, then zeros', followed(new Uint8Array(70_000)), PACKED, 'file.compressed'],
    ['longer unpacked than allowed', gzipSync(HEAD + rows(60_000)), PACKED, 'file.too-large'],
    ['bad in many rows', bytesOf(GOOD.replaceAll(',37.5', ',37,5')), PLAIN, 'csv.row-width'],
    ['of another kind', bytesOf('%PDF-1.7'), PLAIN, 'file.type-mismatch'],
  ])('is refused as it is whole: %s', async (_, bytes, layout, code) => {
    let whole: ReturnType<typeof problemsOf> | undefined;
    try {
      readLayout1('log.csv', bytes, expectationOf(layout, CHANNELS), OPTIONS);
    } catch (error) {
      whole = problemsOf(error);
    }
    expect(whole?.problems[0]?.code).toBe(code);
    for (const length of [1000, packed.length, 2 ** 20]) {
      const refused = await inPieces(bytes, length, layout).catch(problemsOf);
      expect(refused).toEqual(whole);
    }
  });

  it('stops unpacking where it is longer than allowed, and takes no more of what is sent', async () => {
    const bomb = gzipSync(HEAD + rows(1_000_000));
    let taken = 0;
    function* watched() {
      for (const piece of cut(bomb, 1000)) {
        taken += piece.length;
        yield piece;
      }
    }
    const expectation = expectationOf(PACKED, CHANNELS);
    await expect(readPieces('log.csv', watched(), expectation, { ...OPTIONS, ...NOTHING_LEFT })).rejects.toThrow(
      'unpacking stopped there',
    );
    expect(taken).toBeLessThan(bomb.length / 4);
  });

  it('passes on what goes wrong with the sending, packed or not', async () => {
    for (const bytes of [bytesOf(GOOD), packed]) {
      function* broken() {
        yield bytes.slice(0, 1000);
        throw new Error('the disk is gone');
      }
      const reading = readPieces('log.csv', broken(), expectationOf(PACKED, CHANNELS), { ...OPTIONS, ...NOTHING_LEFT });
      await expect(reading).rejects.toThrow('the disk is gone');
    }
  });

  it('counts the bytes that came', async () => {
    const seen: number[] = [];
    await readPieces('log.csv', cut(bytesOf(GOOD), 50_000), expectationOf(PLAIN, CHANNELS), {
      ...OPTIONS,
      ...NOTHING_LEFT,
      onProgress: (bytes) => seen.push(bytes),
    });
    expect(seen).toEqual([50_000, GOOD.length]);
  });
});

describe('the survey of a file', () => {
  const of = (text: string, layout: Layout = PLAIN) => surveyFile('log.csv', cut(bytesOf(text), 1000), layout);

  it('tells rows, and the smallest and largest of every column', async () => {
    const survey = await of(GOOD.replace('\n0.01,37.5\n', '\n0.01,OL\n'));
    expect(survey).toMatchObject({
      rows: 6000,
      bytes: GOOD.length - 2,
      columns: [
        { column: 1, name: 'time', unit: 's', readings: 6000, smallest: 0, largest: 59.99 },
        {
          column: 2,
          name: 'P rim',
          unit: 'kPa',
          channel: 'rimPressure',
          readings: 5999,
          smallest: 0.5,
          largest: 999.5,
        },
      ],
    });
  });

  it('gives times in seconds, and no extremes where nothing was read', async () => {
    const text = HEAD.replace('time [s]', 'time') + [0, 20, 40].map((ms) => `${1.9e12 + ms},OL\n`).join('');
    const survey = await of(text, Layout.parse({ ...PLAIN, time: { column: 'time', kind: 'epoch', unit: 'ms' } }));
    expect(survey.columns[0]).toMatchObject({ unit: 's', smallest: 0, largest: 0.04 });
    expect(survey.columns[1]).toEqual({ column: 2, name: 'P rim', unit: 'kPa', channel: 'rimPressure', readings: 0 });
  });

  it('refuses what a run would be refused for', async () => {
    await expect(of(GOOD.replace('999.5', '999,5'))).rejects.toThrow(Refusal);
    await expect(of(rows(10))).rejects.toThrow(Refusal);
  });
});
