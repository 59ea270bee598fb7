import type { Examination, ImpactMethod, Limit, Measurement, Run } from '@breakbook/lab';
import { readRun } from '@breakbook/signals';
import { describe, expect, it } from 'vitest';
import { examined, internalLimit, planOf, runOf } from '../fixtures/invented-lot.js';
import { judgeRun } from './judge-run.js';

/** A drop test without a force cell: speed by the gate, nothing else. 10.4 kg aimed at 40 J. */
const method: ImpactMethod = {
  test: 'impact',
  method: 'DROP',
  revision: 1,
  title: 'Drop on a wheel',
  basis: 'invented for tests',
  inForceFrom: '2030-06-01',
  approvedBy: 'ada',
  channels: [],
  characteristics: [
    {
      characteristic: 'failureEnergy',
      title: 'Failure energy',
      kind: 'energy',
      unit: 'J',
      definition: 'by the strikes',
    },
  ],
  failureModes: [
    { code: 'IC-RAD', meaning: 'rim broke through', countsAs: { failureEnergy: 'failure' } },
    { code: 'IS-SPK', meaning: 'spoke broke', countsAs: { failureEnergy: 'at least' } },
    { code: 'IM-MAR', meaning: 'mark in the paint', countsAs: { failureEnergy: 'none' } },
  ],
  minimumSpecimens: 3,
  readiness: [],
  parameters: {
    series: 'single strike',
    mass: { value: 10.4, unit: 'kg' },
    targetEnergy: { value: 40, unit: 'J' },
    energyBand: 0.02,
    gateDistance: { value: 50, unit: 'mm' },
    gravity: { value: 9.81, unit: 'm/s2' },
    baseline: { value: 5, unit: 'ms' },
    contactShare: 0.01,
    lowPass: { value: 3, unit: 'kHz' },
    onsetFall: 0.05,
    guideEfficiency: 0.95,
    momentumShare: 0.03,
    secondStrike: { value: 500, unit: 'ms' },
    forceShareOfFullScale: 0.9,
  },
};
const limit: Limit = {
  ...internalLimit(40),
  limit: 'IMP-INT',
  title: 'Failure energy',
  characteristic: 'failureEnergy',
  unit: 'J',
  decisionRule: { rule: 'simple' },
};

function judge(
  energies: number[],
  examination: Examination,
  more: Partial<Run> = {},
  series = method.parameters.series,
) {
  const speed = (energy: number): Measurement => ({
    of: 'impactSpeed',
    quantity: { value: Math.sqrt((2 * energy) / 10.4), unit: 'm/s' },
    instrument: 'gate',
    person: 'ada',
    at: '2031-03-04T09:30:00Z',
  });
  const run = runOf('R-1', '0417', { examination });
  const made: Run = {
    ...run,
    method: method.method,
    methodRevision: 1,
    files: [],
    measurements: energies.map((energy, index) => ({
      ...speed(energy),
      ...(energies.length > 1 ? { passage: index + 1 } : {}),
    })),
    ...more,
  };
  const used = { ...method, parameters: { ...method.parameters, series } };
  const { reading } = readRun({ method: used, calibrations: [], files: [], run: made });
  return judgeRun({ plan: planOf({ limits: [limit] }), method: used, limits: [limit], reading, run: made });
}

describe('a wheel struck once, judged for 40 J', () => {
  const broken = examined('something broke', ['IC-RAD'], 'not sound');
  it.each<[string, number, Examination, object, string]>([
    ['whole after 40.3 J', 40.3, examined('programme ended', [], 'sound'), { kind: 'atLeast' }, 'conforms'],
    ['marked after 40.3 J', 40.3, examined('programme ended', ['IM-MAR'], 'sound'), { kind: 'atLeast' }, 'conforms'],
    [
      'whole after 39.6 J, which does not show 40 J',
      39.6,
      examined('programme ended', [], 'sound'),
      { kind: 'atLeast' },
      'not evaluated',
    ],
    [
      'broken by 40.3 J, a strike of 40 J by the method',
      40.3,
      broken,
      { kind: 'atMost', value: 40 },
      'does not conform',
    ],
    ['broken by 39.6 J', 39.6, broken, { kind: 'atMost' }, 'does not conform'],
    ['broken by 45 J, which is no strike of 40 J', 45, broken, { kind: 'atMost' }, 'not evaluated'],
    [
      'a spoke broke on a sound rim',
      40.3,
      examined('something broke', ['IS-SPK'], 'sound'),
      { kind: 'atLeast' },
      'conforms',
    ],
    [
      'a spoke broke, the rim not looked at',
      40.3,
      examined('something broke', ['IS-SPK'], 'not examined'),
      { kind: 'atMost' },
      'does not conform',
    ],
  ])('%s', (_, energy, examination, value, outcome) => {
    const { results, verdicts } = judge([energy], examination);
    expect(results[0]?.value).toMatchObject(value);
    expect(verdicts[0]).toMatchObject({ outcome });
  });

  it('of a rising energy keeps the interval, and that it is one wheel', () => {
    const passages = [1, 2].map((passage) => ({
      passage,
      kind: 'strike' as const,
      title: `strike ${passage}`,
      startedAt: '2031-03-04T09:00:00Z',
      found: passage === 1 ? ('whole' as const) : ('damaged' as const),
    }));
    const { results, verdicts } = judge([42, 50], broken, { passages }, 'rising energy');
    expect(results[0]).toMatchObject({
      value: { kind: 'between', lower: expect.closeTo(42, 9), upper: expect.closeTo(50, 9) },
      because: expect.stringContaining('it is not pooled with wheels struck once'),
    });
    expect(verdicts[0]).toMatchObject({ outcome: 'conforms' });
  });
});
