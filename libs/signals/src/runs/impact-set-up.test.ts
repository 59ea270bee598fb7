import type { ImpactSetUp, Measurement } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import { type ImpactInvention, inventedImpactRun, measured } from './invented-impact.fixture.js';
import { readRun } from './read-run.js';
import { seenIn } from './reading.fixture.js';

const SET_UP: ImpactSetUp = {
  strikePoint: { offset: { value: 5, unit: 'mm' }, angle: { value: 2, unit: 'deg' } },
  pad: {
    hardness: { from: { value: 80, unit: '{ShoreA}' }, to: { value: 90, unit: '{ShoreA}' } },
    goodFor: { value: 30, unit: 'd' },
  },
  spokeTension: { from: { value: 900, unit: 'N' }, to: { value: 1300, unit: 'N' } },
  runOutAtMost: { lateral: { value: 0.5, unit: 'mm' }, radial: { value: 0.4, unit: 'mm' } },
  massBand: 0.01,
  boltTorque: { from: { value: 22, unit: 'N.m' }, to: { value: 26, unit: 'N.m' } },
  notStruckBefore: true,
};
const KEYED: Measurement[] = [
  measured('strikeOffset', -3, 'mm'),
  measured('strikeAngleOff', 1.5, 'deg'),
  measured('padHardness', 86, '{ShoreA}', { at: '2031-02-10T09:00:00Z' }),
  ...[1000, 1180, 1290].map((value, i) => measured('spokeTensionBefore', value, 'N', { place: `spoke ${i + 1}` })),
  measured('lateralRunOutBefore', 0.3, 'mm', { place: '0°' }),
  measured('radialRunOutBefore', 0.2, 'mm', { place: '0°' }),
  measured('strikerMass', 10.45, 'kg'),
  ...[23, 25].map((value, i) => measured('fixtureTorque', value, 'N.m', { place: `bolt ${i + 1}` })),
];
const CONDITIONS = { 'pad after': 'whole', 'struck before': 'no' };

/** A run that is set up as asked, with one reading keyed otherwise, or left out. */
function seen({
  keyed = (all: Measurement[]) => all,
  conditions = CONDITIONS,
  setUp = SET_UP,
  over = {},
}: {
  keyed?: (all: Measurement[]) => Measurement[];
  conditions?: Record<string, string>;
  setUp?: ImpactSetUp;
  over?: Partial<ImpactInvention>;
} = {}) {
  const input = inventedImpactRun({
    ...over,
    measurements: (standard) => [...standard, ...keyed(KEYED)],
    parameters: { setUp, ...over.parameters },
    run: { conditions },
  });
  return seenIn(readRun(input)).checks;
}

const as = (of: string, value: number) => (all: Measurement[]) =>
  all.map((one) => (one.of === of ? { ...one, quantity: { ...one.quantity, value } } : one));
const without = (of: string) => (all: Measurement[]) => all.filter((one) => one.of !== of);
const NAMES = [
  'strike point',
  'striker mass',
  'pad hardness',
  'pad',
  'spoke tension',
  'lateral run-out before',
  'radial run-out before',
  'fixture bolts',
  'struck before',
];

describe('a strike set up as its method asks', () => {
  it('passes every check', () => {
    expect(seen()).toEqual([]);
    const checks = readRun(
      inventedImpactRun({
        measurements: (all) => [...all, ...KEYED],
        parameters: { setUp: SET_UP },
        run: { conditions: CONDITIONS },
      }),
    ).reading.checks.map(({ check }) => check);
    for (const name of NAMES) expect(checks).toContain(name);
  });

  it('is asked none of it by a method that names none', () => {
    const checks = readRun(inventedImpactRun()).reading.checks.map(({ check }) => check);
    for (const name of NAMES) expect(checks).not.toContain(name);
  });
});

describe('one fault at a time is found, and no other', () => {
  it.each<[string, Parameters<typeof seen>[0], string[]]>([
    ['a strike 7 mm away', { keyed: as('strikeOffset', -7) }, ['strike point: fail']],
    ['a wheel turned by 3 degrees', { keyed: as('strikeAngleOff', 3) }, ['strike point: fail']],
    ['a point nobody measured', { keyed: without('strikeOffset') }, ['strike point: not evaluated']],
    ['a striker 2 % too heavy', { keyed: as('strikerMass', 10.61) }, ['striker mass: fail']],
    ['a striker nobody weighed', { keyed: without('strikerMass') }, ['striker mass: not evaluated']],
    ['a hard pad', { keyed: as('padHardness', 93) }, ['pad hardness: fail']],
    [
      'a hardness read two months before',
      { keyed: (all) => all.map((one) => (one.of === 'padHardness' ? { ...one, at: '2031-01-02T09:00:00Z' } : one)) },
      ['pad hardness: flag'],
    ],
    ['a pad that tore', { conditions: { ...CONDITIONS, 'pad after': 'damaged' } }, ['pad: fail']],
    ['a pad nobody looked at', { conditions: { 'struck before': 'no' } }, ['pad: not evaluated']],
    ['slack spokes', { keyed: as('spokeTensionBefore', 700) }, ['spoke tension: fail']],
    ['a wheel that wobbles', { keyed: as('lateralRunOutBefore', 0.8) }, ['lateral run-out before: fail']],
    ['a wheel that hops', { keyed: as('radialRunOutBefore', 0.45) }, ['radial run-out before: fail']],
    ['loose bolts', { keyed: as('fixtureTorque', 12) }, ['fixture bolts: flag']],
    ['a wheel struck before', { conditions: { ...CONDITIONS, 'struck before': 'yes' } }, ['struck before: fail']],
    ['a past nobody knows', { conditions: { 'pad after': 'whole' } }, ['struck before: not evaluated']],
  ])('%s', (_, asked, checks) => {
    expect(seen(asked)).toEqual(checks);
  });

  it('looks at each strike by its own readings', () => {
    const over: Partial<ImpactInvention> = {
      energies: [40, 45],
      found: ['whole', 'whole'],
      parameters: { series: 'rising energy' },
    };
    const keyed = () => [
      measured('strikeOffset', 1, 'mm', { passage: 1 }),
      measured('strikeAngleOff', 0, 'deg', { passage: 1 }),
      measured('strikeOffset', 9, 'mm', { passage: 2 }),
      measured('strikeAngleOff', 0, 'deg', { passage: 2 }),
    ];
    const { strikePoint } = SET_UP;
    expect(seen({ over, keyed, setUp: { ...(strikePoint ? { strikePoint } : {}) } })).toEqual(['strike point 2: fail']);
  });
});
