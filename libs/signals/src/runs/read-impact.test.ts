import { type Measurement, Refusal } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import {
  BEFORE,
  GRAVITY,
  type ImpactInvention,
  inventedImpactRun,
  MASS,
  measured,
  PULSE,
  RUN_OUT,
  strikeOf,
} from './invented-impact.fixture.js';
import { readRun } from './read-run.js';
import { named, numberOf, seenIn } from './reading.fixture.js';

const read = (over: Partial<ImpactInvention> = {}) => readRun(inventedImpactRun(over)).reading;
const seen = (over: Partial<ImpactInvention> = {}) => seenIn(readRun(inventedImpactRun(over)));

describe('a strike without noise', () => {
  const strike = strikeOf(40);
  const { reading, traces } = readRun(inventedImpactRun({ noise: 0 }));

  // Closed forms of a striker met by F₀ sin(π t / τ): Newton's second law integrated once and twice.
  it('gives speed and energies by the gate', () => {
    expect(numberOf(reading, 'impactSpeed')).toBeCloseTo(strike.speed, 10);
    expect(numberOf(reading, 'impactEnergy')).toBeCloseTo(40, 9);
    expect(numberOf(reading, 'nominalEnergy')).toBeCloseTo(40, 9);
    expect(named(reading, 'impactSpeed').source).toBe('keyed');
  });

  it('gives forces, impulse and contact time', () => {
    expect(numberOf(reading, 'unfilteredPeakForce')).toBeCloseTo(strike.peak, 2);
    // The low-pass takes less than a thousandth off a pulse of 6 ms.
    expect(numberOf(reading, 'peakForce')).toBeGreaterThan((0.999 * strike.peak) / 1000);
    expect(numberOf(reading, 'peakForce')).toBeLessThan(strike.peak / 1000);
    expect(numberOf(reading, 'impulse') / strike.impulse).toBeCloseTo(1, 5);
    expect(numberOf(reading, 'contactTime')).toBeCloseTo(1000 * PULSE, 1);
  });

  it('gives deflection, absorbed energy and rebound by integration', () => {
    // The deepest point of the closed form, by halving on its velocity.
    let [low, high] = [0, PULSE];
    while (high - low > 1e-12) {
      const middle = (low + high) / 2;
      if (strike.velocity(middle) > 0) low = middle;
      else high = middle;
    }
    expect(numberOf(reading, 'maximumDeflection') / (1000 * strike.deflection(low))).toBeCloseTo(1, 4);
    expect(numberOf(reading, 'absorbedEnergy') / strike.absorbed).toBeCloseTo(1, 4);
    expect(numberOf(reading, 'reboundSpeed')).toBeCloseTo(strike.rebound, 10);
    const integrated = read({ noise: 0, measurements: (all) => all.filter(({ of }) => of !== 'reboundGateTime') });
    expect(numberOf(integrated, 'reboundSpeed')).toBeCloseTo(strike.rebound, 3);
    expect(named(integrated, 'reboundSpeed').source).toBe('trace');
  });

  it('follows its force sensor as the closed forms say', () => {
    // U = 100 N, k = 2: u = 50 N at the peak; the impulse follows in proportion.
    expect(named(reading, 'peakForce').uncertainty).toMatchObject({ expanded: expect.closeTo(0.1, 9), k: 2 });
    const share = 50 / strike.peak;
    expect((named(reading, 'impulse').uncertainty?.expanded ?? 0) / (2 * share * strike.impulse)).toBeCloseTo(1, 3);
    // dE/dF over all: E = ½ m (v_i² − v²) + m g δ with v and δ linear in the force.
    const change = (gain: number) => {
      const v = strike.speed + GRAVITY * PULSE - (gain * strike.impulse) / MASS;
      const delta =
        strike.speed * PULSE + (GRAVITY * PULSE ** 2) / 2 - ((gain * strike.peak) / MASS) * (PULSE ** 2 / Math.PI);
      return (MASS * (strike.speed ** 2 - v ** 2)) / 2 + MASS * GRAVITY * delta;
    };
    const slope = (change(1.001) - change(0.999)) / 0.002;
    expect((named(reading, 'absorbedEnergy').uncertainty?.expanded ?? 0) / (2 * share * Math.abs(slope))).toBeCloseTo(
      1,
      2,
    );
    expect(named(reading, 'impactEnergy').uncertainty?.expanded).toBeCloseTo((2 * 0.005 * 40) / Math.sqrt(3), 9);
  });

  it('marks the strike, and hands over what was integrated', () => {
    expect(reading.events.map(({ name }) => name)).toEqual(['contact begins', 'peak', 'contact ends']);
    expect(reading.events[0]?.time).toBeCloseTo(0, 4);
    expect(traces.map(({ channel, unit }) => [channel, unit])).toEqual([
      ['strikerForce', 'N'],
      ['filteredForce', 'N'],
      ['strikerVelocity', 'm/s'],
      ['deflection', 'mm'],
      ['energyIntoPart', 'J'],
    ]);
    expect(reading).toMatchObject({ flags: [], proposedValidity: 'valid' });
    expect(reading).not.toHaveProperty('passages');
  });

  it('every step says what was asked and answered', () => {
    for (const { steps } of reading.characteristics)
      for (const { question, answer } of steps) {
        expect(question).toMatch(/\?$/);
        expect(answer).toMatch(/\.$/);
      }
  });

  it('says where damage began, by the first sudden fall', () => {
    // From 2 ms on the part holds 30 % less.
    const damaged = read({ noise: 0, force: (newtons, time) => (time > 0.002 ? 0.7 * newtons : newtons) });
    const expected = strike.peak * Math.sin((Math.PI * 0.002) / PULSE);
    expect(named(damaged, 'onsetForce').value).toMatchObject({ kind: 'exact' });
    expect(numberOf(damaged, 'onsetForce') / expected).toBeCloseTo(1, 1);
    expect(named(reading, 'onsetForce').value).toEqual({
      kind: 'atLeast',
      value: 1000 * numberOf(reading, 'peakForce'),
    });
  });
});

describe('a strike that the record or the keyed values do not bear out', () => {
  it.each<[string, Partial<ImpactInvention>, string, RegExp]>([
    [
      'no gate time',
      { measurements: (all) => all.filter(({ of }) => of !== 'gateTime') },
      'impactEnergy',
      /neither gateTime nor impactSpeed was keyed/,
    ],
    [
      'two gate times',
      { measurements: (all) => [...all, measured('gateTime', 20, 'ms')] },
      'absorbedEnergy',
      /2 values of gateTime/,
    ],
    [
      'no height',
      { measurements: (all) => all.filter(({ of }) => of !== 'dropHeight') },
      'nominalEnergy',
      /no dropHeight/,
    ],
    [
      'a force cut off',
      { noise: 0, force: (newtons) => Math.min(newtons, 9000) },
      'absorbedEnergy',
      /cut off below full scale/,
    ],
    [
      'a gap in the contact',
      { force: (f, t) => (t > 0.001 && t < 0.0015 ? undefined : f) },
      'maximumDeflection',
      /gap in the contact/,
    ],
    ['no strike', { force: () => 0 }, 'peakForce', /no force rises above the noise/],
    [
      'a record that ends in contact',
      { seconds: BEFORE + 0.004 },
      'absorbedEnergy',
      /ends with the force still acting/,
    ],
    ['too slow a logger', { rate: 5000 }, 'peakForce', /too few samples a second for a low-pass of 3000 Hz/],
  ])('%s', (_, over, name, because) => {
    expect(named(read(over), name).value).toMatchObject({ notEvaluated: { because: expect.stringMatching(because) } });
  });

  it('knows the peak of a force cut off from below', () => {
    expect(named(read({ noise: 0, force: (newtons) => Math.min(newtons, 9000) }), 'peakForce').value).toMatchObject({
      kind: 'atLeast',
    });
    expect(named(read({ seconds: BEFORE + 0.004 }), 'maximumDeflection').value).toMatchObject({ kind: 'exact' });
    expect(named(read({ seconds: BEFORE + 0.002 }), 'maximumDeflection').value).toMatchObject({ kind: 'atLeast' });
  });

  it('takes a speed that a person read', () => {
    const measurements = () => [measured('impactSpeed', 10, 'km/h')];
    expect(numberOf(read({ measurements }), 'impactSpeed')).toBeCloseTo(10 / 3.6, 9);
  });

  it('refuses a gate time in millimetres', () => {
    const measurements = () => [measured('gateTime', 19, 'mm')];
    expect(() => read({ measurements })).toThrow('measurement gateTime: "mm" does not measure time');
  });

  it('needs no file where the method reads no force', () => {
    const { reading } = readRun(
      inventedImpactRun({
        recorded: false,
        method: { channels: [{ channel: 'strikerForce', kind: 'force', required: false }] },
      }),
    );
    expect(numberOf(reading, 'impactEnergy')).toBeCloseTo(40, 9);
    expect(named(reading, 'failureEnergy').value).toMatchObject({ kind: 'atLeast' });
    expect(named(reading, 'peakForce').value).toMatchObject({
      notEvaluated: { because: 'this strike has no force record' },
    });
    expect(reading).toMatchObject({ files: [], proposedValidity: 'valid' });
    expect(() => read({ recorded: false })).toThrow('came without a file');
  });
});

describe('the energy at which a strike damages', () => {
  const rising = { parameters: { series: 'rising energy' as const }, energies: [40, 45, 50] };
  const points = { parameters: { series: 'several points' as const }, energies: [40, 40], places: ['90°', '270°'] };
  const broke = { endReason: 'something broke', partSound: 'not sound' } as const;
  const near = (value: number) => expect.closeTo(value, 6);
  it.each<[string, Partial<ImpactInvention>, object, object | undefined]>([
    ['one strike, nobody says', {}, { kind: 'atLeast', value: near(40) }, { kind: 'atMost', value: 40 }],
    ['one strike, whole', { found: ['whole'] }, { kind: 'atLeast', value: near(40) }, { kind: 'atMost', value: 40 }],
    ['one strike, damaged', { found: ['damaged'], ...broke }, { kind: 'atMost', value: near(40) }, undefined],
    [
      'one strike in the band above its target, damaged: taken at the target',
      {
        found: ['damaged'],
        ...broke,
        run: {},
        energies: [40.4],
        parameters: { targetEnergy: { value: 40, unit: 'J' } },
        named: false,
      },
      { kind: 'atLeast', value: near(40.4) },
      { kind: 'atMost', value: 40 },
    ],
    [
      'a rising energy, damaged by the third',
      { ...rising, found: ['whole', 'whole', 'damaged'], ...broke },
      { kind: 'between', lower: near(45), upper: near(50) },
      undefined,
    ],
    [
      'a rising energy, damaged by the second, and struck again',
      { ...rising, found: ['whole', 'damaged', 'damaged'], ...broke },
      { kind: 'between', lower: near(40), upper: near(45) },
      undefined,
    ],
    [
      'a rising energy, damaged by the third after a second nobody looked at',
      { ...rising, found: ['whole', 'not examined', 'damaged'], ...broke },
      { kind: 'between', lower: near(40), upper: near(50) },
      undefined,
    ],
    [
      'a rising energy, damaged by the first',
      { ...rising, found: ['damaged'], ...broke },
      { kind: 'atMost', value: near(40) },
      undefined,
    ],
    [
      'a rising energy, whole throughout',
      { ...rising, found: ['whole', 'whole', 'whole'] },
      { kind: 'atLeast', value: near(50) },
      { kind: 'between', lower: near(45), upper: near(50) },
    ],
    [
      'two points, whole',
      { ...points, found: ['whole', 'whole'] },
      { kind: 'atLeast', value: near(40) },
      { kind: 'atMost', value: near(40) },
    ],
    [
      'two points, the second damaged',
      { ...points, energies: [45, 40], found: ['whole', 'damaged'], ...broke },
      { kind: 'atMost', value: near(40) },
      undefined,
    ],
    [
      'two points of unlike energy, nobody says',
      { ...points, energies: [40, 45] },
      { kind: 'atLeast', value: near(40) },
      { kind: 'atMost', value: near(45) },
    ],
  ])('%s', (_, over, value, ifBroken) => {
    const energy = named(read(over), 'failureEnergy');
    expect(energy.value).toEqual(value);
    if (ifBroken === undefined) expect(energy).not.toHaveProperty('ifBroken');
    else expect(energy.ifBroken).toEqual(ifBroken);
  });

  it('says that several strikes are one wheel, and never pools a rising energy', () => {
    expect(named(read({ ...rising, found: ['whole', 'whole', 'damaged'] }), 'failureEnergy').caution).toContain(
      'one wheel struck 3 times: damage may have grown from strike to strike, so it is not pooled',
    );
    expect(named(read(points), 'failureEnergy').caution).toBe('these are 2 points of one wheel, which is one specimen');
    expect(named(read(), 'failureEnergy')).not.toHaveProperty('caution');
  });

  it('is not evaluated where a strike of the series has no energy, or the series is another', () => {
    const measurements = (all: Measurement[]) => all.filter(({ of, passage }) => of !== 'gateTime' || passage !== 2);
    expect(named(read({ ...rising, measurements }), 'failureEnergy').value).toMatchObject({
      notEvaluated: { because: 'strike 2: neither gateTime nor impactSpeed was keyed for this strike' },
    });
    expect(named(read({ energies: [40, 40] }), 'failureEnergy').value).toMatchObject({
      notEvaluated: { because: 'the method makes one strike on a specimen, and this run has 2' },
    });
  });

  it('gives each strike its own numbers, and the run the largest', () => {
    const reading = read({ ...rising, found: ['whole', 'whole', 'damaged'] });
    expect(reading.passages?.map(({ passage, title, file }) => [passage, title, file])).toEqual([
      [1, 'strike 1', 'strike-1.csv'],
      [2, 'strike 2', 'strike-2.csv'],
      [3, 'strike 3', 'strike-3.csv'],
    ]);
    const energies = reading.passages?.map(
      ({ characteristics }) => characteristics.find(({ characteristic }) => characteristic === 'impactEnergy')?.value,
    );
    expect(energies).toEqual([40, 45, 50].map((value) => ({ kind: 'exact', value: near(value) })));
    expect(numberOf(reading, 'impactEnergy')).toBeCloseTo(50, 6);
    const names = reading.characteristics.map(({ characteristic }) => characteristic);
    expect(new Set(names).size).toBe(names.length);
  });
});

describe('run-out before and after', () => {
  const withRunOut = (over: (all: Measurement[]) => Measurement[], more: Partial<ImpactInvention> = {}) =>
    read({ ...more, measurements: (all) => [...all, ...over(RUN_OUT)] });

  it('gives the change of the largest and the largest change at one place', () => {
    const reading = withRunOut((all) => all);
    expect(numberOf(reading, 'lateralRunOutChange')).toBeCloseTo(0.02, 12);
    expect(numberOf(reading, 'lateralRunOutGrowth')).toBeCloseTo(0.3, 12);
    expect(named(reading, 'lateralRunOutGrowth')).toMatchObject({
      source: 'keyed',
      steps: [{ numbers: { places: 4, place: '90°', instrument: 'I-1' } }],
    });
    expect(named(reading, 'radialRunOutChange').value).toMatchObject({
      notEvaluated: { because: 'no radialRunOutBefore and no radialRunOutAfter was keyed for run 88' },
    });
  });

  it('counts a change inwards as well', () => {
    const inwards = (all: Measurement[]) =>
      all.map((one) =>
        one.of.endsWith('After') ? { ...one, quantity: { value: one.quantity.value - 0.6, unit: 'mm' } } : one,
      );
    expect(numberOf(withRunOut(inwards), 'lateralRunOutGrowth')).toBeCloseTo(0.6, 12);
  });

  it('has no growth where places do not match', () => {
    const elsewhere = (all: Measurement[]) => all.map((one, i) => (i === 5 ? { ...one, place: '95°' } : one));
    const reading = withRunOut(elsewhere);
    expect(named(reading, 'lateralRunOutGrowth').value).toMatchObject({
      notEvaluated: { because: 'of 4 readings after, 3 have one reading before at the same place in run 88' },
    });
    expect(numberOf(reading, 'lateralRunOutChange')).toBeCloseTo(0.02, 12);
  });

  it('of several strikes compares before the first with after the last', () => {
    const each = () => [
      measured('radialRunOutBefore', 0.1, 'mm', { place: '0°', passage: 1 }),
      measured('radialRunOutAfter', 0.2, 'mm', { place: '0°', passage: 1 }),
      measured('radialRunOutBefore', 0.2, 'mm', { place: '0°', passage: 2 }),
      measured('radialRunOutAfter', 450, 'um', { place: '0°', passage: 2 }),
    ];
    const reading = withRunOut(each, { energies: [40, 40], parameters: { series: 'several points' } });
    expect(numberOf(reading, 'radialRunOutChange')).toBeCloseTo(0.35, 12);
    expect(numberOf(reading, 'radialRunOutGrowth')).toBeCloseTo(0.35, 12);
  });
});

describe('a faultless strike', () => {
  it.each([0, 3, 15])('with %d N of noise passes every check', (noise) => {
    expect(seen({ noise })).toMatchObject({ checks: [], flags: [], proposed: 'valid' });
  });
  it.each([50_000, 100_000, 250_000])('at %d samples a second passes every check', (rate) => {
    expect(seen({ rate })).toMatchObject({ checks: [], flags: [], proposed: 'valid' });
  });
  it('with its displacement recorded passes every check', () => {
    expect(seen({ displacement: (metres) => metres + 0.01 })).toMatchObject({
      checks: [],
      flags: [],
      proposed: 'valid',
    });
  });
  it('of a series found whole passes every check', () => {
    const over = {
      energies: [40, 45],
      found: ['whole', 'whole'] as const,
      parameters: { series: 'rising energy' as const },
    };
    expect(seen({ ...over, found: [...over.found] })).toMatchObject({ checks: [], flags: [], proposed: 'valid' });
  });
});

describe('one fault at a time is found, and no other', () => {
  const later = (from: number, to: number, share: number) => (newtons: number, time: number) =>
    time > from && time < to ? share * Math.sin((Math.PI * (time - from)) / (to - from)) * strikeOf(40).peak : newtons;
  const keyed = (of: string, factor: number) => (all: Measurement[]) =>
    all.map((one) =>
      one.of === of ? { ...one, quantity: { ...one.quantity, value: factor * one.quantity.value } } : one,
    );
  const broke = { endReason: 'something broke', partSound: 'not sound' } as const;
  const two = { energies: [40, 45], parameters: { series: 'rising energy' as const } };
  it.each<[string, Partial<ImpactInvention>, string[], string[]]>([
    ['a target missed', { parameters: { targetEnergy: { value: 42, unit: 'J' } } }, ['energy in band: fail'], []],
    ['a guide that brakes', { measurements: keyed('dropHeight', 1.15) }, ['guide efficiency: fail'], []],
    ['a height keyed too low', { measurements: keyed('dropHeight', 0.9) }, ['guide efficiency: flag'], []],
    ['a rebound timed wrong', { measurements: keyed('reboundGateTime', 1.5) }, ['momentum balance: flag'], []],
    ['a force that reads 6 % low', { force: (newtons) => 0.94 * newtons }, ['momentum balance: flag'], []],
    ['a second strike', { force: later(0.05, 0.056, 0.2) }, ['second strike: flag'], ['signal.step']],
    ['a record that ends soon', { seconds: 0.09 }, ['second strike: not evaluated'], []],
    [
      'a sensor at full scale',
      { fullScale: 11_000, force: (newtons) => Math.min(newtons, 11_000), noise: 0 },
      ['clipping: flag', 'range used: flag'],
      ['signal.saturated'],
    ],
    ['a sensor too small', { fullScale: 12_000 }, ['range used: flag'], []],
    [
      'a baseline that drifts',
      { force: (f, t) => f + (t < -0.005 ? 30_000 * (t + 0.0075) : 0) },
      ['baseline: fail'],
      [],
    ],
    [
      'a record that begins too late',
      { text: (text) => text.replaceAll(/^-0\.0(0[4-9]|1)\d*,.*\n/gm, '') },
      ['baseline: fail'],
      [],
    ],
    ['too slow a logger', { rate: 25_000 }, ['sampling rate: fail'], []],
    [
      'a gap after contact',
      { force: (f, t) => (t > 0.05 && t < 0.0505 ? undefined : f) },
      ['gaps: flag'],
      ['time.gap'],
    ],
    ['a displacement of the wrong scale', { displacement: (metres) => 1.1 * metres }, ['deflection: flag'], []],
    ['a calibration overdue', { calibrations: [] }, ['calibration: fail'], []],
    ['two strikes where one is asked', { energies: [40, 40] }, ['series: fail'], []],
    ['energies that do not rise', { ...two, energies: [45, 40] }, ['series: flag'], []],
    [
      'two strikes at one point',
      { energies: [40, 40], places: ['90°', '90°'], parameters: { series: 'several points' } },
      ['series: flag'],
      [],
    ],
    ['damage that the examination does not know', { ...two, found: ['whole', 'damaged'] }, ['ending: flag'], []],
    ['a break that no strike knows', { ...two, found: ['whole', 'whole'], ...broke }, ['ending: flag'], []],
    ['strikes after the damage', { ...two, found: ['damaged', 'damaged'], ...broke }, ['ending: flag'], []],
    ['a run stopped early', { endReason: 'stopped early' }, ['ending: flag'], []],
    ['a rig fault', { endReason: 'rig fault' }, ['ending: fail'], []],
    ['nothing recorded at all', { force: () => 0 }, ['loading: fail'], ['signal.no-event']],
    [
      'no speed',
      { measurements: (all) => all.filter(({ of }) => of !== 'gateTime') },
      ['energy in band: not evaluated'],
      [],
    ],
  ])('%s', (_, over, checks, flags) => {
    const found = seen(over);
    expect(found.checks).toEqual(checks);
    expect(found.flags).toEqual(flags);
    expect(found.proposed).toBe(checks.some((one) => one.endsWith('fail')) ? 'invalid' : 'needs a look');
    for (const { outcome, action, finding, question } of found.reading.checks) {
      expect([question.endsWith('?'), finding.endsWith('.')]).toEqual([true, true]);
      expect(action !== undefined).toBe(outcome !== 'pass');
    }
  });

  it('a strike whose file did not come fails its check, and the others are read', () => {
    const input = inventedImpactRun({ ...two, found: ['whole', 'whole'] });
    const passages = (input.run.passages ?? []).map((one) => (one.passage === 2 ? { ...one, file: undefined } : one));
    const run = { ...input.run, passages: passages.map(({ file, ...rest }) => (file ? { ...rest, file } : rest)) };
    const found = seenIn(readRun({ ...input, files: input.files.slice(0, 1), run }));
    expect(found.checks).toEqual(['record 2: fail']);
    expect(named(found.reading, 'failureEnergy').value).toMatchObject({ kind: 'atLeast' });
    expect(named(found.reading, 'peakForce').value).toMatchObject({
      notEvaluated: { because: 'strike 2: this strike has no force record' },
    });
  });
});

describe('files of strikes', () => {
  const two = { energies: [40, 40], parameters: { series: 'several points' as const } };
  const refusal = (change: (input: ReturnType<typeof inventedImpactRun>) => ReturnType<typeof inventedImpactRun>) => {
    try {
      readRun(change(inventedImpactRun(two)));
    } catch (error) {
      if (error instanceof Refusal) return error.problems[0];
      throw error;
    }
    throw new Error('was taken');
  };
  const passagesOf = (input: ReturnType<typeof inventedImpactRun>, file: (passage: number) => string) => ({
    ...input,
    run: { ...input.run, passages: (input.run.passages ?? []).map((one) => ({ ...one, file: file(one.passage) })) },
  });

  it('belong to the passage that names them, in whatever order they come', () => {
    const input = inventedImpactRun({ ...two, energies: [40, 45] });
    const turned = readRun({ ...input, files: [...input.files].reverse() }).reading;
    expect(turned.files.map(({ name }) => name)).toEqual(['strike-1.csv', 'strike-2.csv']);
    expect(turned).toEqual(readRun(input).reading);
  });

  it('are refused where a passage names one that did not come, two name one, or none names it', () => {
    expect(refusal((input) => passagesOf(input, (n) => `other-${n}.csv`))).toMatchObject({ code: 'file.missing' });
    expect(
      refusal((input) => passagesOf({ ...input, files: input.files.slice(0, 1) }, () => 'strike-1.csv')),
    ).toMatchObject({
      code: 'meta.unknown',
      detail: expect.stringContaining('for passages 1, 2, and a file holds one strike'),
    });
    expect(refusal((input) => passagesOf(input, () => 'strike-1.csv'))).toMatchObject({
      code: 'meta.unknown',
      file: 'strike-2.csv',
    });
    expect(refusal(({ run: { passages: _, ...run }, ...input }) => ({ ...input, run }))).toMatchObject({
      code: 'request.too-many-parts',
      detail: expect.stringContaining('names no passages'),
    });
  });

  it('are refused where they say another passage', () => {
    const crossed = (n: number) => `strike-${3 - n}.csv`;
    expect(refusal((input) => passagesOf(input, crossed))).toMatchObject({
      code: 'meta.unknown',
      line: 4,
      found: '2',
      expected: '1',
      detail: 'strike-2.csv, line 4: the file is of passage "2", and run 88 names it for passage 1.',
    });
  });
});
