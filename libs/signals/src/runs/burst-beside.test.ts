import type { Layout, Measurement } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import {
  CHANNELS as channels,
  characteristic,
  flow,
  placed,
  volumeAt,
  widthAt,
  withColumns,
} from './burst-columns.fixture.js';
import { calibration, type Invention, inventedRun, LAYOUT, METHOD, RIG } from './invented-run.fixture.js';
import { readRun } from './read-run.js';
import { named, numberOf } from './reading.fixture.js';

const WIDTHS = [0.3, 0.4, 0.2];
const characteristics = [
  ...METHOD.characteristics,
  characteristic('hydraulicWork', 'energy', 'J'),
  characteristic('pumpedVolume', 'volume', 'L'),
  characteristic('pressureVolumeSlope', 'pressure per volume', 'kPa/mL'),
  characteristic('kneePressureByVolume', 'pressure', 'bar'),
  characteristic('kneePressureByWidth', 'pressure', 'kPa'),
  characteristic('storedEnergy', 'energy', 'kJ'),
  characteristic('widthGrowth', 'length', 'mm'),
  characteristic('meanWidthGrowth', 'length', 'mm'),
  characteristic('permanentSet', 'length', 'mm'),
  characteristic('rampRatePart1', 'pressure rate', 'kPa/s'),
  characteristic('rampRatePart2', 'pressure rate', 'kPa/s'),
];
const compliance = { from: 0.1, to: 0.4, departure: 0.05 };

const read = (over: Partial<Invention> = {}, layout: Layout = LAYOUT) => {
  const input = inventedRun({
    ...over,
    method: { channels, characteristics, ...over.method },
    parameters: { compliance, ...over.parameters },
  });
  return readRun({ ...input, layout }).reading;
};

describe('a burst whose flow was recorded', () => {
  const reading = read({ text: withColumns({ 'flow [mL/min]': flow }) });

  it('gives volume and work by their closed forms', () => {
    expect(numberOf(reading, 'pumpedVolume')).toBeCloseTo(volumeAt(1500) / 1000, 3);
    // ∫ P dV: 1000²/2/20 + (1500² − 1000²)/2/10 kPa·mL.
    expect(numberOf(reading, 'hydraulicWork')).toBeCloseTo((25_000 + 62_500) / 1000, 0);
  });

  it('gives the slope of pressure over volume, and where the part began to give more', () => {
    expect(numberOf(reading, 'pressureVolumeSlope')).toBeCloseTo(20, 1);
    // Twice the slope beyond 1000 kPa: 5 % away at 1000 / 0.95.
    expect(numberOf(reading, 'kneePressureByVolume')).toBeCloseTo(10 / 0.95, 1);
  });

  it('takes its uncertainty from both sensors', () => {
    const budget = {
      k: 2,
      components: [
        { from: 'calibration' as const, name: 'pressure', channel: 'rimPressure' },
        { from: 'calibration' as const, name: 'flow', channel: 'flow' },
      ],
    };
    const uncertain = read({
      text: withColumns({ 'flow [mL/min]': flow }),
      method: {
        channels,
        characteristics: [{ ...characteristic('hydraulicWork', 'energy', 'J'), uncertainty: budget }],
      },
      rig: {
        placements: [...RIG.placements, placed('flow', 'S3', 500, 'mL/min')],
      },
      calibrations: [
        calibration('S1'),
        calibration('S2'),
        calibration('S3', { unit: 'mL/min', expandedUncertainty: 4 }),
      ],
    });
    const work = numberOf(uncertain, 'hydraulicWork');
    const { uncertainty } = named(uncertain, 'hydraulicWork');
    // 5 kPa of 1500 kPa; and 2 mL/min over ∫ P dt = 1500 · 75 / 2 kPa·s.
    expect(uncertainty?.components[0]?.u).toBeCloseTo((5 * work) / 1500, 2);
    expect(uncertainty?.components[1]?.u).toBeCloseTo((2 * 1500 * 75) / 2 / 60_000, 2);
  });

  it('that began late is at least what it shows, and draws no line it does not know', () => {
    const layout: Layout = {
      ...LAYOUT,
      columns: [...LAYOUT.columns, { column: 'flow', channel: 'flow', noReading: [''] }],
    };
    const late = read({ text: withColumns({ 'flow [mL/min]': (t) => (t < 30 ? undefined : flow(t)) }) }, layout);
    // From 540 kPa on: (1000² − 540²)/2/20 + 62 500 kPa·mL.
    expect(named(late, 'hydraulicWork').value).toMatchObject({ kind: 'atLeast', value: expect.closeTo(80.21, 0) });
    expect(named(late, 'kneePressureByVolume').value).toMatchObject({
      notEvaluated: { because: expect.stringContaining('not known throughout the loading') },
    });
  });

  it('was not recorded, or never read: says what would help', () => {
    const layout: Layout = {
      ...LAYOUT,
      columns: [...LAYOUT.columns, { column: 'flow', channel: 'flow', noReading: [''] }],
    };
    const silent = read({ text: withColumns({ 'flow [mL/min]': () => undefined }) }, layout);
    expect(named(silent, 'hydraulicWork').value).toHaveProperty('notEvaluated');
    expect(named(read(), 'hydraulicWork').value).toMatchObject({
      notEvaluated: { because: 'the flow into the part was not recorded', possibleIf: 'the record has a channel flow' },
    });
  });
});

describe('a burst whose widths were recorded', () => {
  const columns = Object.fromEntries(WIDTHS.map((grows, i) => [`rimWidth${i + 1} [mm]`, widthAt(grows)]));
  const reading = read({ text: withColumns(columns), seconds: 84 });

  it('gives growth at the burst and set after it', () => {
    expect(numberOf(reading, 'widthGrowth')).toBeCloseTo(0.4, 3);
    expect(numberOf(reading, 'meanWidthGrowth')).toBeCloseTo(0.3, 3);
    expect(numberOf(reading, 'permanentSet')).toBeCloseTo(0.1, 6);
    expect(named(reading, 'kneePressureByWidth').value).toMatchObject({ kind: 'atLeast' });
  });

  it('gives growth where the method reads it, and says where that was not reached', () => {
    const at = (value: number) =>
      read({ text: withColumns(columns), seconds: 84, parameters: { widthAt: { value, unit: 'kPa' } } });
    expect(numberOf(at(750), 'widthGrowth')).toBeCloseTo(0.2, 3);
    expect(named(at(1600), 'widthGrowth').value).toMatchObject({
      notEvaluated: { because: expect.stringContaining('the pressure never reached') },
    });
  });

  it('and keyed instead, gives the same by place', () => {
    const at = (of: string, value: number, place: string): Measurement => ({
      of,
      quantity: { value, unit: 'mm' },
      place,
      instrument: 'caliper 3',
      person: 'p1',
      at: '2031-03-04T09:30:00Z',
    });
    const measurements = WIDTHS.flatMap((grows, i) => [
      at('rimWidthBefore', 25, `${120 * i}°`),
      at('rimWidthUnderPressure', 25 + grows, `${120 * i}°`),
      at('rimWidthAfter', 25 + grows / 4, `${120 * i}°`),
    ]);
    const keyed = read({ run: { measurements } });
    expect(numberOf(keyed, 'widthGrowth')).toBeCloseTo(0.4, 9);
    expect(numberOf(keyed, 'permanentSet')).toBeCloseTo(0.1, 9);
    expect(named(keyed, 'widthGrowth').source).toBe('keyed');
    const without = read({ run: { measurements: measurements.filter((one) => one.of !== 'rimWidthUnderPressure') } });
    expect(named(without, 'widthGrowth').value).toMatchObject({
      notEvaluated: { because: 'no width under pressure at "0°" was keyed' },
    });
  });
});

describe('the energy of the gas in a part', () => {
  const room = { roomPressure: { value: 1, unit: 'bar' }, filledVolume: { value: 1.8, unit: 'L' } };
  const stored = (conditions: Record<string, string>, parameters: Partial<typeof METHOD.parameters>) =>
    named(read({ run: { conditions }, parameters }), 'storedEnergy').value;

  it('is that of its adiabatic expansion, by the medium that run or method names', () => {
    // 2.5 · 1600 kPa · 1.8 L · [1 − (1/16)^(2/7)], in kJ; the median of five looks 0.4 kPa below the burst.
    const kilojoules = 2.5 * 1.6 * 1.8 * (1 - (1 / 16) ** (2 / 7));
    expect(stored({ medium: 'air' }, room)).toMatchObject({ kind: 'exact', value: expect.closeTo(kilojoules, 2) });
    expect(stored({}, { ...room, medium: 'nitrogen' })).toMatchObject({ value: expect.closeTo(kilojoules, 2) });
  });

  it.each<[string, Record<string, string>, Partial<typeof METHOD.parameters>, string]>([
    ['a liquid', { medium: 'water' }, room, 'the part is filled with water'],
    ['nobody knows', {}, room, 'nothing says what fills the part'],
    ['a word of its own', { medium: 'glycol' }, room, 'is none that is known here'],
    ['two media', { medium: 'air' }, { ...room, medium: 'water' }, 'the run says air'],
    ['no volume', { medium: 'air' }, { roomPressure: room.roomPressure }, 'no filledVolume was keyed'],
    ['no pressure of the room', { medium: 'air' }, { filledVolume: room.filledVolume }, 'no roomPressure was keyed'],
  ])('is not evaluated where it is %s', (_, conditions, parameters, because) => {
    expect(stored(conditions, parameters)).toMatchObject({
      notEvaluated: { because: expect.stringContaining(because) },
    });
  });
});

describe('the parts of a ramp', () => {
  it('each have their slope, counted from 1', () => {
    const hold = { name: 'at 700', pressure: { value: 700, unit: 'kPa' }, below: 0.001, above: 0.001 };
    const pressure = (t: number) =>
      t < 3
        ? 0
        : t < 31
          ? 25 * (t - 3)
          : t < 41
            ? 700
            : t < 81
              ? 700 + 20 * (t - 41)
              : 1500 * Math.exp(-(t - 81) / 0.01);
    const reading = read({
      pressure,
      seconds: 84,
      noise: 0.05,
      parameters: { holds: [{ ...hold, duration: { value: 8, unit: 's' } }] },
    });
    expect(numberOf(reading, 'rampRatePart1')).toBeCloseTo(25, 1);
    expect(numberOf(reading, 'rampRatePart2')).toBeCloseTo(20, 1);
    expect(numberOf(reading, 'rampRate')).toBeCloseTo(22.5, 1);
    expect(named(read(), 'rampRatePart2').value).toMatchObject({
      notEvaluated: { because: 'the ramp has 1 part between 10 and 90 % of the peak' },
    });
  });
});

describe('a name that a method means otherwise', () => {
  it('is what a person keyed, as it was', () => {
    const measurements: Measurement[] = [
      {
        of: 'permanentSet',
        quantity: { value: 0.4, unit: '%' },
        instrument: 'caliper 3',
        person: 'p1',
        at: '2031-03-04T09:30:00Z',
      },
    ];
    const reading = read({
      run: { measurements },
      method: { channels, characteristics: [characteristic('permanentSet', 'ratio', '%')] },
    });
    expect(named(reading, 'permanentSet')).toMatchObject({ source: 'keyed', value: { kind: 'exact', value: 0.4 } });
  });
});
