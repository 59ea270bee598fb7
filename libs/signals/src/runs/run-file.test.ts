import { type Layout, Refusal } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import { type Invention, inventedRun } from './invented-run.fixture.js';
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

describe('a layout may say that what is doubtful elsewhere is usual here', () => {
  const read = (over: Partial<Invention>, declared: Partial<Layout>) => {
    const input = invented(over);
    if (!input.layout) throw new Error('an invented run has a layout');
    return readRun({ ...input, layout: { ...input.layout, ...declared } }).reading.flags.map(({ code }) => code);
  };
  const counted = (count: (index: number, time: number) => number): Partial<Invention> => ({
    row: (cells, index) => ({ ...cells, time: count(index, cells.time) }),
  });
  const time = { column: 'time' } as const;

  it.each<[string, Partial<Invention>, Partial<Layout>, string]>([
    [
      'gaps',
      { row: (cells, i) => (i > 400 && i < 410 ? undefined : cells) },
      { time: { ...time, kind: 'time', gapsExpected: true } },
      'time.gap',
    ],
    [
      'a start before the trigger',
      counted((_, t) => t - 1),
      { time: { ...time, kind: 'time', beginsBeforeZero: true } },
      'time.negative',
    ],
    [
      'sample numbers',
      { ...counted((i) => i), header: 'time,P rim [kPa],P rim 2 [kPa]' },
      { time: { ...time, kind: 'sample number', rate: { value: 20, unit: 'Hz' } } },
      'time.range',
    ],
    [
      'an epoch',
      { ...counted((_, t) => 1930381920 + t), header: 'time,P rim [kPa],P rim 2 [kPa]' },
      { time: { ...time, kind: 'epoch', unit: 's' } },
      'time.range',
    ],
  ])('%s', (_, over, declared, code) => {
    expect(flagsOf({ ...over, header: 'time [s],P rim [kPa],P rim 2 [kPa]' }).map((one) => one.code)).toContain(code);
    expect(read(over, declared)).toEqual([]);
  });

  it('the zone of a clock that writes none', () => {
    const zoneless = started('2031-03-04T10:12:00');
    expect(refusalOf(zoneless).code).toBe('meta.date');
    expect(read(zoneless, { clockZone: '+01:00' })).toEqual([]);
  });

  it.each([
    ['an epoch of another day', 1930381920 + 3 * 86_400],
    ['an epoch that no calendar has', 1e17],
  ])('and %s is flagged all the same', (_, epoch) => {
    const over = {
      row: (cells: { time: number; first: number; second: number }, i: number) => ({ ...cells, time: epoch + 100 * i }),
    };
    const header = 'time,P rim [kPa],P rim 2 [kPa]';
    expect(read({ ...over, header }, { time: { ...time, kind: 'epoch', unit: 's' } })).toContain('meta.date');
  });
});
