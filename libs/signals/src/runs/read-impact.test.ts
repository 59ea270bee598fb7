import { Refusal, type Trace } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import { traceOutline } from '../features/trace-outline.js';
import {
  BEFORE,
  GRAVITY,
  type ImpactInvention,
  inventedImpactRun,
  MASS,
  measured,
  PULSE,
  strikeOf,
} from './invented-impact.fixture.js';
import { readRun } from './read-run.js';
import { named, numberOf } from './reading.fixture.js';

const read = (over: Partial<ImpactInvention> = {}) => readRun(inventedImpactRun(over)).reading;

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
    // The whole record is kept; a figure shows three times the contact.
    const [force] = traces;
    const [begins, , ends] = reading.events.map(({ time }) => time) as [number, number, number];
    expect(force?.time).toHaveLength(reading.files[0]?.rows ?? 0);
    expect(force?.shown?.from).toBeCloseTo(begins - (ends - begins), 9);
    expect(force?.shown?.to).toBeCloseTo(ends + (ends - begins), 9);
    const shown = traceOutline(force as Trace, 1e6).time;
    expect(shown[0]).toBeGreaterThanOrEqual(force?.shown?.from ?? 0);
    expect(shown.at(-1)).toBeLessThan(force?.shown?.to ?? 0);
    expect(reading).toMatchObject({
      flags: [{ code: 'signal.too-smooth' }],
      proposedValidity: 'needs a look',
    });
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
