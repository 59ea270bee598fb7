import type { Measurement } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import {
  type ImpactInvention,
  inventedImpactRun,
  measured,
  PULSE,
  RUN_OUT,
  strikeOf,
} from './invented-impact.fixture.js';
import { readRun } from './read-run.js';
import { named, numberOf } from './reading.fixture.js';

const read = (over: Partial<ImpactInvention> = {}) => readRun(inventedImpactRun(over)).reading;

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

describe('the force at which damage began, of several strikes', () => {
  /** From 2 ms on the part holds 30 % less, in the strikes named: it gives way at sin(π/3) of the peak of a half-sine. */
  const givesWay =
    (...strikes: number[]): ImpactInvention['force'] =>
    (newtons, time, index) =>
      strikes.includes(index + 1) && time > 0.002 ? 0.7 * newtons : newtons;
  const peakOf = (energy: number) => strikeOf(energy).peak;
  const share = Math.sin((Math.PI * 0.002) / PULSE);
  const onset = (energies: number[], force: ImpactInvention['force'], series: 'rising energy' | 'several points') =>
    named(read({ energies, force, noise: 0, parameters: { series } }), 'onsetForce');
  // Within 3 %: the low-pass rounds the sudden fall off.
  const near = (value: number) => expect.closeTo(value / 1000, -Math.log10((2 * 0.03 * value) / 1000));
  const inKilonewtons = (value: unknown) =>
    JSON.parse(JSON.stringify(value), (_, one: unknown) => (typeof one === 'number' ? one / 1000 : one));

  it.each<[string, number[], number[], 'rising energy' | 'several points', object]>([
    [
      'none gives way: at least the largest peak',
      [40, 45, 50],
      [],
      'rising energy',
      { kind: 'atLeast', value: near(peakOf(50)) },
    ],
    [
      'the third gives way: between the peak of the second and its own fall',
      [20, 25, 50],
      [3],
      'rising energy',
      { kind: 'between', lower: near(peakOf(25)), upper: near(share * peakOf(50)) },
    ],
    [
      'the second gives way below what the first held: it was weakened',
      [40, 45],
      [2],
      'rising energy',
      { kind: 'between', lower: near(share * peakOf(45)), upper: near(peakOf(40)) },
    ],
    [
      'the first gives way: what follows says nothing more',
      [40, 45],
      [1, 2],
      'rising energy',
      { kind: 'exact', value: near(share * peakOf(40)) },
    ],
    ['two points, none gives way', [40, 45], [], 'several points', { kind: 'atLeast', value: near(peakOf(40)) }],
    [
      'two points, the second gives way',
      [40, 45],
      [2],
      'several points',
      { kind: 'exact', value: near(share * peakOf(45)) },
    ],
  ])('%s', (_, energies, gaveWay, series, value) => {
    const found = onset(energies, givesWay(...gaveWay), series);
    expect(inKilonewtons(found.value)).toEqual(value);
    expect(found.steps[0]?.question).toBe('What do the strikes show together?');
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
