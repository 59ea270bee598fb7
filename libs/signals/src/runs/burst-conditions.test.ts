import type { BurstMethod, MovedInstant, Run } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import { CHANNELS, flow, placed, widthAt, withColumns } from './burst-columns.fixture.js';
import { BURSTS_AT, calibration, type Invention, inventedRun, RIG, rampAndBurst } from './invented-run.fixture.js';
import { readRun } from './read-run.js';
import { seenIn } from './reading.fixture.js';

const celsius = (value: number) => ({ value, unit: 'Cel' });
const CONDITIONS = { medium: 'water', 'room temperature': celsius(21), 'water temperature': celsius(20) };

/** A run by a method that asks for everything it can, faultless as it stands. */
function run(
  over: Partial<Invention> = {},
  { flowing = flow, modes = ['BF-FLG'] }: { flowing?: (t: number) => number; modes?: string[] } = {},
) {
  const input = inventedRun({
    seconds: 84,
    text: withColumns({
      'flow [mL/min]': flowing,
      'rimWidth1 [mm]': widthAt(0.3),
      'rimWidth2 [mm]': widthAt(0.4),
      'rimWidth3 [mm]': widthAt(0.2),
    }),
    rig: {
      placements: [
        ...RIG.placements,
        placed('flow', 'S3', 500, 'mL/min'),
        ...[1, 2, 3].map((n) => placed(`rimWidth${n}`, `W${n}`, 50, 'mm')),
      ],
    },
    calibrations: [
      calibration('S1'),
      calibration('S2'),
      calibration('S3', { unit: 'mL/min' }),
      ...[1, 2, 3].map((n) => calibration(`W${n}`, { unit: 'mm' })),
    ],
    ...over,
    method: { channels: CHANNELS, failureModes: MODES, ...over.method },
    parameters: {
      temperature: { from: celsius(18), to: celsius(28) },
      airBleed: { least: { value: 15, unit: 'kPa/mL' }, from: 0.1, to: 0.4 },
      tyreOff: { rest: 0.1, within: { value: 0.2, unit: 's' }, width: { value: 0.05, unit: 'mm' } },
      ...over.parameters,
    },
    run: { conditions: CONDITIONS, ...over.run },
  });
  const examination = input.run.examination as NonNullable<Run['examination']>;
  return readRun({
    ...input,
    run: { ...input.run, examination: { ...examination, modes: modes.map((code) => ({ code })) } },
  });
}

const MODES: BurstMethod['failureModes'] = [
  { code: 'BF-FLG', meaning: 'flange broke', countsAs: {}, loss: 'burst' },
  { code: 'BT-OFF', meaning: 'tyre came off', countsAs: {}, loss: 'tyre off' },
  { code: 'BX-SEAL', meaning: 'seal leaked', countsAs: {}, loss: 'leak' },
];
const seen = (...asked: Parameters<typeof run>) => seenIn(run(...asked)).checks;

describe('a run that meets all that its method asks beside the trace', () => {
  it('passes every check', () => {
    expect(seen()).toEqual([]);
    const checks = run().reading.checks.map(({ check }) => check);
    for (const one of ['room temperature', 'medium temperature', 'air bleed', 'loss of pressure'])
      expect(checks).toContain(one);
  });

  it('is asked nothing of it by a method that names none of it', () => {
    const checks = readRun(inventedRun()).reading.checks.map(({ check }) => check);
    for (const one of ['room temperature', 'medium temperature', 'air bleed', 'loss of pressure'])
      expect(checks).not.toContain(one);
  });
});

describe('one fault at a time is found, and no other', () => {
  /** A litre of air at the pressure of the room, squeezed by the law of Boyle and Mariotte, beside the part itself. */
  const withAir = (litres: number) => (t: number) => {
    const absolute = 100 + rampAndBurst(t);
    const squeezed = t < 3 || t >= BURSTS_AT ? 0 : (60 * 20 * 1000 * litres * 100) / absolute ** 2;
    return flow(t) + squeezed;
  };

  it.each<[string, () => string[], string[]]>([
    [
      'a cold room',
      () => seen({ run: { conditions: { ...CONDITIONS, 'room temperature': celsius(12) } } }),
      ['room temperature: flag'],
    ],
    [
      'hot water',
      () => seen({ run: { conditions: { ...CONDITIONS, 'water temperature': celsius(41) } } }),
      ['medium temperature: flag'],
    ],
    [
      'a temperature nobody noted',
      () => seen({ run: { conditions: { medium: 'water', 'water temperature': celsius(20) } } }),
      ['room temperature: not evaluated'],
    ],
    [
      'a temperature noted in bar',
      () => seen({ run: { conditions: { ...CONDITIONS, 'room temperature': { value: 21, unit: 'bar' } } } }),
      ['room temperature: not evaluated'],
    ],
    ['air in the line', () => seen({}, { flowing: withAir(0.05) }), ['air bleed: fail']],
    [
      'a flow that was not recorded',
      () => seen({ text: (text) => text }),
      ['air bleed: not evaluated', 'loss of pressure: flag'],
    ],
    [
      'a tyre that the examination calls off, where the rim stayed wider',
      () => seen({}, { modes: ['BT-OFF'] }),
      ['loss of pressure: flag'],
    ],
    ['nobody who says what gave way', () => seen({}, { modes: [] }), ['loss of pressure: flag']],
  ])('%s', (_, found, checks) => {
    expect(found()).toEqual(checks);
  });

  it('leaves the bleed out where a gas presses', () => {
    const checks = run({ run: { conditions: { ...CONDITIONS, medium: 'air', 'medium temperature': celsius(20) } } })
      .reading.checks;
    expect(checks.map(({ check }) => check)).not.toContain('air bleed');
  });
});

describe('how the pressure was lost', () => {
  const loss = (...asked: Parameters<typeof run>) =>
    run(...asked).reading.checks.find(({ check }) => check === 'loss of pressure');
  const springsBack = withColumns({ 'rimWidth1 [mm]': (t) => 25 + (t <= BURSTS_AT ? 0.004 * t : 0) });
  const sinking = (perSecond: number) => (t: number) =>
    t < 78 ? rampAndBurst(t) : Math.max(0, 1500 * (1 - perSecond * (t - 78)));

  it('is a tyre off where the pressure is gone at once and the rim springs back', () => {
    expect(loss({ text: springsBack }, { modes: ['BT-OFF'] })).toMatchObject({ outcome: 'pass' });
    expect(loss({ text: springsBack })).toMatchObject({
      outcome: 'flag',
      finding: expect.stringMatching(/^It looks like a tyre that came off: .*; the examination says a burst\.$/),
    });
  });

  it('is a burst where some pressure stays', () => {
    const pressure = (t: number) => (t < 78 ? rampAndBurst(t) : t < 82 ? 400 : 0);
    expect(loss({ text: springsBack, pressure })).toMatchObject({
      outcome: 'pass',
      finding: expect.stringMatching(/^It looks like a burst: 26\.\d % of the peak was left/),
    });
  });

  it('is a leak or a line let down where it sinks', () => {
    const leaks = { pressure: sinking(0.008), seconds: 100 };
    expect(loss(leaks, { modes: ['BX-SEAL'] })).toMatchObject({ outcome: 'pass' });
    const vented = { pressure: sinking(0.2), seconds: 90, endReason: 'rig limit reached' as const };
    expect(loss(vented, { modes: [] })).toMatchObject({
      outcome: 'pass',
      finding: expect.stringMatching(/^It looks like a line that was let down: 20\.\d % of the peak a second/),
    });
    expect(loss(vented)).toMatchObject({ outcome: 'flag' });
  });

  it('is what a person says', () => {
    const instants: MovedInstant[] = [
      {
        instant: 'failure',
        at: BURSTS_AT + 0.01,
        loss: 'tyre off',
        reason: 'the video shows the tyre leave the rim',
        person: 'p1',
        movedAt: '2031-03-04T10:00:00Z',
      },
    ];
    expect(loss({ run: { conditions: CONDITIONS, instants } })).toMatchObject({
      outcome: 'pass',
      finding: 'It was a tyre that came off, as a person says.',
    });
  });
});
