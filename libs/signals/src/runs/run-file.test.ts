import { Refusal } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import { type Invention, inventedRun, seededUniform } from './invented-run.fixture.js';
import { readRun } from './read-run.js';

const short = { seconds: 82, rate: 20, noise: 0.3 } as const;
const invented = (over: Partial<Invention> = {}) => inventedRun({ ...short, ...over });

function refusalOf(over: Partial<Invention>): Refusal {
  try {
    readRun(invented(over));
  } catch (error) {
    if (error instanceof Refusal) return error;
    throw error;
  }
  throw new Error('was taken');
}
const flagsOf = (over: Partial<Invention>) => readRun(invented(over)).reading.flags;
const METADATA = '# specimen: 0417\n# rig: R1\n# started: 2031-03-04T09:12:00Z\n# medium: water\n';
const started = (text: string) => ({ metadata: METADATA.replace('2031-03-04T09:12:00Z', text) });

describe('the file must be of this run', () => {
  it.each<[string, Partial<Invention>, string, number]>([
    ['another specimen', { metadata: METADATA.replace('0417', '0418') }, 'meta.unknown', 1],
    ['another rig', { metadata: METADATA.replace('R1', 'R2') }, 'meta.unknown', 2],
    ['30 February', started('2031-02-30T09:12:00Z'), 'meta.date', 3],
    ['hour 25', started('2031-03-04T25:12:00Z'), 'meta.date', 3],
    ['year 0', started('0000-03-04T09:12:00Z'), 'meta.date', 3],
    ['no zone', started('2031-03-04T09:12:00'), 'meta.date', 3],
  ])('%s is refused', (_, over, code, line) => {
    expect(refusalOf(over).problems).toMatchObject([
      {
        code,
        line,
        file: 'run-42.csv',
        found: expect.any(String),
        expected: expect.any(String),
        action: expect.any(String),
      },
    ]);
  });

  it('names both specimens', () => {
    expect(refusalOf({ metadata: METADATA.replace('0417', '0418') }).message).toBe(
      'run-42.csv, line 1: the file is of specimen "0418", run 42 of specimen "0417".',
    );
  });

  it('asks for what the layout wants beside', () => {
    expect(refusalOf({ metadata: METADATA.replace('# medium: water\n', '') }).problems).toMatchObject([
      { code: 'meta.missing', expected: expect.stringContaining('# medium') },
    ]);
  });

  it.each([
    ['before the rig had a sensor', '2030-12-31T09:12:00Z'],
    ['in the future of the run record', '2031-03-06T09:12:00Z'],
  ])('a date %s is flagged', (_, date) => {
    expect(flagsOf(started(date))).toMatchObject([{ code: 'meta.date', line: 3, found: date }]);
  });

  it('a record that begins after it came in is flagged, beyond what two clocks differ by', () => {
    const read = (receivedAt: string) => {
      const input = inventedRun({ noise: 0.3 });
      return readRun({ ...input, run: { ...input.run, receivedAt } }).reading;
    };
    const early = read('2031-03-04T09:06:59Z');
    expect(early.flags).toMatchObject([
      { code: 'meta.date', file: 'run-42.csv', line: 3, found: '2031-03-04T09:12:00Z' },
      {
        code: 'meta.date',
        pointer: '/startedAt',
        found: '2031-03-04T09:12:00Z',
        action: expect.stringContaining('clock'),
      },
    ]);
    expect(early.proposedValidity).toBe('needs a look');
    // The invented record begins at 09:12; five minutes are common practice, no source.
    expect(read('2031-03-04T09:07:01Z').flags).toEqual([]);
    expect(read('2031-03-04T09:30:00Z').proposedValidity).toBe('valid');
  });

  it('takes the same instant in another zone', () => {
    expect(flagsOf(started('2031-03-04T10:12:00+01:00'))).toEqual([]);
  });

  it('refuses no file, and more than one', () => {
    const input = invented();
    expect(() => readRun({ ...input, files: [] })).toThrow('came without a file');
    const two = { ...input, files: [...input.files, ...input.files] };
    expect(() => readRun(two)).toThrow('came with 2 files');
  });

  it('refuses a record too short to read anything from', () => {
    expect(refusalOf({ seconds: 1.5 }).code).toBe('run.too-short');
    expect(refusalOf({ rate: 2, seconds: 4 }).code).toBe('run.too-short');
  });

  it('refuses a method that lists no rim pressure', () => {
    const refusal = refusalOf({
      method: { channels: [{ channel: 'roomTemperature', kind: 'temperature', required: false }] },
      header: 'time [s],roomTemperature [Cel],P rim 2 [Cel]',
    });
    expect(refusal).toMatchObject({ code: 'header.missing-channel', problems: [{ channel: 'rimPressure' }] });
  });

  it('tells a wrong call from a wrong file', () => {
    const input = invented();
    expect(() => readRun({ ...input, run: { ...input.run, methodRevision: 2 } })).toThrow('was made by B1 rev. 2');
    expect(() => readRun({ ...input, run: { ...input.run, rig: 'R9' } })).toThrow('was made on rig R9');
  });
});

describe('times are flagged where they are doubtful', () => {
  const times = (change: (time: number, index: number) => number): Partial<Invention> => ({
    row: (cells, index) => ({ ...cells, time: change(cells.time, index) }),
  });
  it.each<[string, Partial<Invention>, string, number]>([
    ['rows missing', { row: (cells, i) => (i > 400 && i < 410 ? undefined : cells) }, 'time.gap', 407],
    ['the rate changes', { row: (cells, i) => (i > 768 && i % 2 ? undefined : cells) }, 'time.rate-change', 775],
    ['jitter', times((t, i) => (i % 10 === 5 ? t + 0.04 : t)), 'time.jitter', 11],
    [
      'a rate in the metadata that is not that of the rows',
      { metadata: `${METADATA}# sampleRate: 500 Hz\n` },
      'time.rate-change',
      5,
    ],
    ['a rate without its unit', { metadata: `${METADATA}# sampleRate: 20\n` }, 'time.rate-change', 5],
    ['sample numbers', times((_, i) => i), 'time.range', 6],
    ['seconds since 1970', times((t) => 1930295520 + t), 'time.range', 6],
    [
      'microseconds called milliseconds',
      { header: 'time [ms],P rim [kPa],P rim 2 [kPa]', ...times((t) => 1e6 * 100 * t) },
      'time.range',
      6,
    ],
    ['a start before the trigger', times((t) => t - 1), 'time.negative', 6],
  ])('%s', (_, over, code, line) => {
    const flag = flagsOf(over).find((one) => one.code === code);
    expect(flag).toMatchObject({ line, file: 'run-42.csv', action: expect.any(String), detail: expect.any(String) });
  });

  it('names place and length of the longest gap', () => {
    const [flag] = flagsOf({ row: (cells, i) => (i > 400 && i < 410 ? undefined : cells) });
    expect(flag?.detail).toContain('one gap in the record; the longest is 0.5000 s');
    expect(flag?.found).toBe('20 to 20.5');
  });

  it('takes the rate that the rows have, and an even clock of any rate', () => {
    expect(flagsOf({ metadata: `${METADATA}# sampleRate: 20 Hz\n` })).toEqual([]);
    expect(flagsOf({ rate: 300, row: (cells) => ({ ...cells, time: Math.round(1e6 * cells.time) / 1e6 }) })).toEqual(
      [],
    );
  });
});

describe('a file that was changed anywhere', () => {
  // Bytes that hurt: separators, signs, quotes, controls, halves of UTF-8, digits.
  const HURTFUL = [...new TextEncoder().encode(',;\t\n\r"\'#.-+eE0 9[]\u0000\u2028é\ufeff'), 0xff, 0xc0, 0x80];

  it('is refused with a code or read, and nothing else, in 2 000 seeded mutations', () => {
    const uniform = seededUniform(417);
    const pick = (n: number) => Math.floor(uniform() * n);
    const input = inventedRun({ rate: 10, seconds: 20, pressure: (t) => (t < 3 ? 0 : t < 15 ? 40 * (t - 3) : 0) });
    const [file] = input.files;
    if (!file) throw new Error('an invented run has a file');
    let [read, refused] = [0, 0];
    const codes = new Set<string>();
    for (let round = 0; round < 2000; round++) {
      let bytes = Array.from(file.bytes);
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
      try {
        readRun({ ...input, files: [{ ...file, bytes: Uint8Array.from(bytes) }] });
        read++;
      } catch (error) {
        if (!(error instanceof Refusal)) throw new Error(`mutation ${round}: ${String(error)}`, { cause: error });
        expect(error.problems.length).toBeGreaterThan(0);
        for (const { code } of error.problems) codes.add(code);
        refused++;
      }
    }
    // Both ways must have been walked for the run to mean anything.
    expect(read).toBeGreaterThan(50);
    expect(refused).toBeGreaterThan(500);
    expect(codes.size).toBeGreaterThan(15);
  }, 120_000);
});
