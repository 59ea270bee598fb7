import { isNotEvaluated, type Reading } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import { BURSTS_AT, calibration, inventedRun, METHOD, RAMP, RIG, rampAndBurst } from './invented-run.fixture.js';
import { readRun } from './read-run.js';

const named = (reading: Reading, name: string) => {
  const found = reading.characteristics.find(({ characteristic }) => characteristic === name);
  if (!found) throw new Error(`no ${name}`);
  return found;
};
const numberOf = (reading: Reading, name: string) => {
  const { value } = named(reading, name);
  if (isNotEvaluated(value) || value.kind === 'between') throw new Error(`${name}: ${JSON.stringify(value)}`);
  return value.value;
};

describe('readRun on a straight ramp without noise', () => {
  const input = inventedRun({ noise: 0 });
  const { reading, traces } = readRun({ ...input, markedMaximum: { value: 5, unit: 'bar' } });
  // The last sample stands at the burst pressure; the median of five looks two samples further back.
  const last = RAMP.bursts;

  it('gives raw and despiked peak to the sample', () => {
    expect(numberOf(reading, 'rawPeakPressure')).toBeCloseTo(last / 100, 9);
    expect(numberOf(reading, 'burstPressure')).toBeCloseTo(last - (2 * RAMP.rate) / 100, 6);
    expect(named(reading, 'burstPressure').value).toMatchObject({ kind: 'exact' });
  });

  it('gives the ramp rate, the index and the ratio by their closed forms', () => {
    expect(numberOf(reading, 'rampRate')).toBeCloseTo(RAMP.rate, 6);
    // Half the height times the length of the ramp, up to the burst.
    const length = BURSTS_AT - RAMP.begins;
    expect(numberOf(reading, 'pressureTimeIndex')).toBeCloseTo((RAMP.rate * length * length) / 2, 3);
    expect(numberOf(reading, 'safetyRatio')).toBeCloseTo((last - 0.4) / 500, 6);
  });

  it('combines the uncertainty of the budget in quadrature', () => {
    // 0.1 bar / 2; 0.06 bar / √3; 0.002 · P / √6; 2 kPa: JCGM 100:2008, 4.3 and 5.1.2.
    const parts = [5, 6 / Math.sqrt(3), (0.002 * numberOf(reading, 'burstPressure')) / Math.sqrt(6), 2];
    const { uncertainty } = named(reading, 'burstPressure');
    expect(uncertainty?.expanded).toBeCloseTo(2 * Math.hypot(...parts), 9);
    expect(uncertainty?.components).toEqual([
      { name: 'calibration', u: expect.closeTo(5, 9) },
      { name: 'hysteresis', u: expect.closeTo(6 / Math.sqrt(3), 9) },
      { name: 'linearity', u: expect.closeTo(parts[2] as number, 9) },
      { name: 'temperature', u: 2 },
    ]);
    expect(named(reading, 'rampRate').uncertainty).toBeUndefined();
  });

  it('marks where things happened on the trace it hands over', () => {
    expect(reading.events.map(({ name }) => name)).toEqual(['10 % of the peak', '90 % of the peak', 'peak', 'failure']);
    expect(reading.events.at(-1)?.time).toBeCloseTo(BURSTS_AT + 0.01, 9);
    expect(traces.map(({ channel, unit }) => [channel, unit])).toEqual([
      ['rimPressure', 'kPa'],
      ['rimPressure2', 'kPa'],
    ]);
    expect(reading).toMatchObject({
      run: '42',
      method: { method: 'B1', revision: 1 },
      files: [{ name: 'run-42.csv', rows: 8200 }],
      calibrations: [
        { channel: 'rimPressure', sensor: 'S1', calibration: 'CAL-S1', validOnDay: true },
        { channel: 'rimPressure2', sensor: 'S2', calibration: 'CAL-S2', validOnDay: true },
      ],
      // A ramp without noise, in both columns: no sensor wrote that.
      flags: [{ code: 'signal.too-smooth' }, { code: 'signal.too-smooth' }, { code: 'signal.repeated-block' }],
      proposedValidity: 'needs a look',
    });
  });

  it('every step says what was asked and answered', () => {
    for (const { steps } of reading.characteristics)
      for (const step of steps) {
        expect(step.question).toMatch(/\?$/);
        expect(step.answer).toMatch(/\.$/);
      }
    expect(named(reading, 'longestHold').value).toMatchObject({
      notEvaluated: { because: 'the method programmes no hold' },
    });
  });

  it('gives the same again, number for number', () => {
    expect(readRun({ ...input, markedMaximum: { value: 5, unit: 'bar' } }).reading).toEqual(reading);
  });
});

describe('readRun corrects once, from the calibration in force', () => {
  const relation = { gain: 1.02, offset: -0.5 };
  const withCalibrations = (calibrations: ReturnType<typeof calibration>[], over = {}) =>
    readRun(inventedRun({ noise: 0, calibrations, ...over })).reading;
  const plain = numberOf(withCalibrations([calibration('S1')]), 'burstPressure');

  it('by the as-left relation, in the unit of the calibration; the offset goes with the vented zero', () => {
    const reading = withCalibrations([calibration('S1', { asLeft: relation, asFound: { gain: 9, offset: 9 } })]);
    expect(numberOf(reading, 'burstPressure')).toBeCloseTo(1.02 * plain, 6);
    const psi = withCalibrations([
      calibration('S1', { asLeft: { gain: 1.02, offset: -7 }, unit: '[psi]', expandedUncertainty: 2 }),
    ]);
    expect(numberOf(psi, 'burstPressure')).toBeCloseTo(1.02 * plain, 6);
    // U = 2 psi with k = 2 is u = 6.894757 kPa (NIST SP 811, appendix B.8: 1 psi = 6.894757 kPa).
    expect(named(psi, 'burstPressure').uncertainty?.components[0]?.u).toBeCloseTo(6.894757, 6);
  });

  it('reads the same pressure from a file in another unit', () => {
    const bar = withCalibrations([calibration('S1')], {
      header: 'time [ms],P rim [bar],P rim 2 [bar]',
      row: (cells: { time: number; first: number; second: number }) => ({
        time: Math.round(1000 * cells.time),
        first: cells.first / 100,
        second: cells.second / 100,
      }),
    });
    expect(numberOf(bar, 'burstPressure')).toBeCloseTo(plain, 6);
    expect(numberOf(bar, 'rampRate')).toBeCloseTo(RAMP.rate, 6);
  });

  it('takes the latest event up to the day of the run', () => {
    const events = [
      calibration('S1', { calibration: 'old', date: '2030-01-10' }),
      calibration('S1', { calibration: 'in force', date: '2031-03-04' }),
      calibration('S1', { calibration: 'later', date: '2031-03-05' }),
    ];
    expect(withCalibrations(events).calibrations[0]?.calibration).toBe('in force');
    expect(withCalibrations([...events].reverse()).calibrations[0]?.calibration).toBe('in force');
  });

  it('follows the sensor that sat on the channel that day', () => {
    const placed = (sensor: string, from: string, to?: string) => ({
      channel: 'rimPressure',
      sensor,
      from,
      ...(to ? { to } : {}),
      fullScale: { value: 30, unit: 'bar' },
    });
    const rig = {
      placements: [placed('S9', '2031-01-01', '2031-03-03'), placed('S1', '2031-03-04'), placed('S7', '2031-04-01')],
    };
    const all = ['S1', 'S7', 'S9'].map((sensor) => calibration(sensor));
    expect(withCalibrations(all, { rig }).calibrations[0]?.sensor).toBe('S1');
  });

  it('refuses a calibration in a unit of another quantity', () => {
    expect(() => withCalibrations([calibration('S1', { unit: 'mm' })])).toThrow('calibration CAL-S1 is in "mm"');
  });

  it('without one leaves the readings as indicated, states no uncertainty, and proposes invalid', () => {
    const reading = withCalibrations([]);
    expect(numberOf(reading, 'burstPressure')).toBeCloseTo(plain, 9);
    expect(named(reading, 'burstPressure')).not.toHaveProperty('uncertainty');
    expect(named(reading, 'burstPressure').steps.at(-1)?.answer).toContain('no calibration is in force');
    expect(reading.proposedValidity).toBe('invalid');
    expect(reading.checks[0]).toMatchObject({ check: 'calibration', outcome: 'fail' });
  });
});

describe('readRun gives "at least"', () => {
  it.each<[string, Parameters<typeof inventedRun>[0], RegExp]>([
    ['where the record ends at the peak', { seconds: 60, endReason: 'rig limit reached' }, /pressure still up/],
    [
      'where the line was let down',
      {
        pressure: (t) => (t < 60 ? rampAndBurst(t) : Math.max(0, 1140 - 300 * (t - 60))),
        endReason: 'rig limit reached',
      },
      /as when vented/,
    ],
    [
      'where it leaked away',
      { pressure: (t) => (t < 60 ? rampAndBurst(t) : 1140 - 8 * (t - 60)), endReason: 'something broke' },
      /leaked away by 0\.70\d? % a second/,
    ],
    [
      'where the top is cut off',
      { row: (cells) => ({ ...cells, first: Math.min(1300, cells.first) }) },
      /below full scale/,
    ],
    [
      'where the sensor is at full scale',
      {
        rig: { placements: RIG.placements.map((one) => ({ ...one, fullScale: { value: 13, unit: 'bar' } })) },
        row: (cells) => ({ ...cells, first: Math.min(1300, cells.first) }),
      },
      /at full scale/,
    ],
    [
      'where the peak lies in a gap',
      { row: (cells, i) => (i > 7780 && i < 7850 ? undefined : cells) },
      /gap at its peak/,
    ],
  ])('%s', (_, over, why) => {
    const { reading } = readRun(inventedRun(over));
    const burst = named(reading, 'burstPressure');
    expect(burst.value).toMatchObject({ kind: 'atLeast' });
    expect(burst.steps.find(({ question }) => question === 'Is it known exactly?')?.answer).toMatch(why);
    expect(reading.proposedValidity).not.toBe('valid');
  });

  it('and the index is not evaluated across a gap, nor anything where no pressure was recorded', () => {
    const gap = readRun(inventedRun({ row: (cells, i) => (i > 4000 && i < 4010 ? undefined : cells) })).reading;
    expect(named(gap, 'pressureTimeIndex').value).toMatchObject({
      notEvaluated: { because: expect.stringContaining('gap from 40 s to 40.1 s') },
    });
    expect(named(gap, 'burstPressure').value).toMatchObject({ kind: 'exact' });
    const nothing = readRun(inventedRun({ pressure: () => 0 })).reading;
    expect(named(nothing, 'burstPressure').value).toMatchObject({
      notEvaluated: { because: expect.stringContaining('no pressure was recorded') },
    });
    expect(nothing).toMatchObject({ proposedValidity: 'invalid', events: [] });
  });
});

describe('readRun verifies holds', () => {
  const holds = [
    {
      name: 'proof',
      pressure: { value: 9.13, unit: 'bar' },
      below: 0,
      above: 0.05,
      duration: { value: 1, unit: 'min' },
    },
  ];
  // Up with 20 kPa/s to 920 kPa, `seconds` there, and on to the burst.
  const held = (seconds: number) => (t: number) => {
    const reached = RAMP.begins + 920 / RAMP.rate;
    if (t < reached) return rampAndBurst(t);
    if (t < reached + seconds) return 920;
    return rampAndBurst(t - seconds);
  };

  it('gives the time from edge to edge of the band', () => {
    const { reading } = readRun(inventedRun({ noise: 0, seconds: 142, pressure: held(60), parameters: { holds } }));
    // 60 s, and the ramp from 913 to 920 and from 920 to 958.65 kPa.
    expect(numberOf(reading, 'longestHold')).toBeCloseTo(60 + 7 / 20 + 38.65 / 20, 3);
    expect(reading.checks.find(({ check }) => check === 'hold')).toMatchObject({ outcome: 'pass' });
    expect(numberOf(reading, 'rampRate')).toBeCloseTo(20, 3);
  });

  it('flags a hold that was too short or never reached, which is 0 s and not unknown', () => {
    const short = readRun(inventedRun({ seconds: 120, pressure: held(30), parameters: { holds } })).reading;
    expect(short.checks.find(({ check }) => check === 'hold')).toMatchObject({ outcome: 'flag' });
    const never = readRun(
      inventedRun({ pressure: (t) => (t < 23 ? rampAndBurst(t) : 0), parameters: { holds } }),
    ).reading;
    expect(named(never, 'longestHold').value).toEqual({ kind: 'exact', value: 0 });
  });

  it('is "at least" where the record ends inside the band', () => {
    const { reading } = readRun(
      inventedRun({ seconds: 80, pressure: held(60), parameters: { holds }, endReason: 'programme ended' }),
    );
    expect(named(reading, 'longestHold').value).toMatchObject({ kind: 'atLeast' });
  });

  it('of two holds reports the one that fell shorter', () => {
    const two = [...holds, { ...holds[0], name: 'second', pressure: { value: 12, unit: 'bar' } }] as typeof holds;
    const { reading } = readRun(
      inventedRun({ noise: 0, seconds: 142, pressure: held(60), parameters: { holds: two } }),
    );
    // The ramp passes the second band, 1200 to 1260 kPa, in 3 s.
    expect(numberOf(reading, 'longestHold')).toBeCloseTo(3, 2);
  });
});

describe('readRun takes keyed values', () => {
  const measured = (value: number, unit: string, of = 'burstPressure') => ({
    of,
    quantity: { value, unit },
    instrument: 'gauge G2',
    person: 'p1',
    at: '2031-03-04T09:30:00Z',
  });
  const table = (measurements: ReturnType<typeof measured>[]) => {
    const { method: _, layout: __, rig: ___, ...input } = inventedRun({ run: { method: 'T1', measurements } });
    const { channels: ____, parameters: _____, ...common } = METHOD;
    return readRun({
      ...input,
      files: [],
      method: {
        ...common,
        test: 'table',
        method: 'T1',
        channels: [],
        parameters: {},
        characteristics: METHOD.characteristics.slice(0, 2).map(({ uncertainty: ______, ...one }) => ({
          ...one,
          uncertainty: { k: 2, components: [{ from: 'standard', name: 'gauge', u: 5, unit: 'kPa' }] },
        })),
      },
    });
  };

  it('in the unit of the method, with its uncertainty, and says which is missing', () => {
    const { reading, traces } = table([measured(18.5, 'bar')]);
    expect(named(reading, 'burstPressure')).toMatchObject({
      value: { kind: 'exact', value: 1850 },
      source: 'keyed',
      uncertainty: { expanded: 10, k: 2 },
    });
    expect(named(reading, 'rawPeakPressure').value).toMatchObject({
      notEvaluated: { because: 'no value of rawPeakPressure was keyed for run 42' },
    });
    expect([traces, reading.files, reading.checks]).toEqual([[], [], []]);
  });

  it('does not choose between two, and refuses another quantity', () => {
    expect(named(table([measured(18.5, 'bar'), measured(18.6, 'bar')]).reading, 'burstPressure').value).toMatchObject({
      notEvaluated: { because: expect.stringContaining('2 values') },
    });
    expect(() => table([measured(18.5, 'mm')])).toThrow('"mm" does not measure pressure');
  });

  it('beside a trace, for what the trace does not give, and holds what it gives against it', () => {
    const width = {
      characteristic: 'widthGrowth',
      title: 'Width growth',
      kind: 'length',
      unit: 'mm',
      definition: 'keyed',
    } as const;
    const input = inventedRun({
      method: { characteristics: [...METHOD.characteristics, width] },
      run: { measurements: [measured(0.4, 'mm', 'widthGrowth'), measured(17, 'bar')] },
    });
    const { reading } = readRun(input);
    expect(named(reading, 'widthGrowth')).toMatchObject({ value: { kind: 'exact', value: 0.4 }, source: 'keyed' });
    expect(reading.checks.find(({ check }) => check === 'keyed value')).toMatchObject({ outcome: 'flag' });
    expect(named(reading, 'burstPressure').source).toBe('trace');
  });
});
