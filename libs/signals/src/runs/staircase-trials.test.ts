import type { Run } from '@breakbook/lab';
import { compute } from '@breakbook/statistics';
import { describe, expect, it } from 'vitest';
import { type ImpactInvention, inventedImpactRun } from './invented-impact.fixture.js';
import { readRun } from './read-run.js';
import { type ReadStrike, staircaseTrials } from './staircase-trials.js';

const VALID: Run['validity'] = { validity: 'valid', person: 'p2', at: '2031-03-05T09:00:00Z' };

/** The n-th wheel of a series, struck once. */
function struck(n: number, energy: number, broke: boolean, over: Partial<ImpactInvention> = {}): ReadStrike {
  const input = inventedImpactRun({
    energies: [energy],
    found: [broke ? 'damaged' : 'whole'],
    recorded: false,
    endReason: broke ? 'something broke' : 'programme ended',
    partSound: broke ? 'not sound' : 'sound',
    ...over,
    method: { channels: [] },
    run: {
      run: String(n),
      specimen: `w${n}`,
      startedAt: `2031-03-04T09:${String(n).padStart(2, '0')}:00Z`,
      ...(VALID ? { validity: VALID } : {}),
      ...over.run,
    },
  });
  return { run: input.run, method: input.method, reading: readRun(input).reading };
}

describe('staircaseTrials', () => {
  // Six wheels in steps of 5 J; each goes down after a break and up after none.
  const SERIES: [number, boolean][] = [
    [80, true],
    [75, false],
    [80, true],
    [75, true],
    [70, false],
    [75, false],
  ];
  const runs = SERIES.map(([energy, broke], i) => struck(i + 1, energy, broke));

  it('takes each wheel at the energy aimed at, in the order of the strikes', () => {
    const { trials, leftOut } = staircaseTrials([...runs].reverse());
    expect(trials.map(({ level, broke }) => [level, broke])).toEqual(SERIES);
    expect(trials[0]).toEqual({ run: '1', specimen: 'w1', level: 80, broke: true });
    expect(leftOut).toEqual([]);
  });

  it('gives what the staircase of Dixon and Mood is worked out from', () => {
    const { trials } = staircaseTrials(runs);
    const answer = compute({
      method: 'staircase',
      trials: trials.map(({ level, broke }) => ({ level, broke })),
      step: 5,
    });
    // Three of each, so failures count: at 75, 80, 80 J, a = 2, n = 3; mean = 75 + 5 (2/3 − 1/2) J.
    expect(answer).toMatchObject({ result: { counted: 'failures', n: 3, a: 2, mean: expect.closeTo(75 + 5 / 6, 9) } });
  });

  it('goes by the examination where nobody looked after the strike', () => {
    const { trials } = staircaseTrials([struck(1, 80, true, { found: ['not examined'] })]);
    expect(trials).toMatchObject([{ broke: true }]);
  });

  it.each<[string, ReadStrike, string]>([
    ['nobody decided', struck(1, 80, true, { run: { validity: undefined } as Partial<Run> }), 'nobody decided yet'],
    [
      'is invalid',
      struck(1, 80, true, {
        run: { validity: { ...VALID, validity: 'invalid', reason: 'rig fault' } as Run['validity'] } as Partial<Run>,
      }),
      'it is invalid',
    ],
    [
      'was struck twice',
      struck(1, 80, true, { energies: [75, 80], found: ['whole', 'damaged'], parameters: { series: 'rising energy' } }),
      'the wheel was struck 2 times',
    ],
    [
      'missed its energy',
      struck(1, 80, true, {
        measurements: (all) =>
          all.map((one) =>
            one.of === 'gateTime' ? { ...one, quantity: { ...one.quantity, value: 1.1 * one.quantity.value } } : one,
          ),
      }),
      'it is not shown that it brought the energy aimed at',
    ],
    ['nobody looked at', struck(1, 80, true, { found: ['not examined'], partSound: 'not examined' }), 'nobody says'],
  ])('leaves out a wheel that %s', (_, run, because) => {
    const { trials, leftOut } = staircaseTrials([run]);
    expect(trials).toEqual([]);
    expect(leftOut).toEqual([{ run: '1', because: expect.stringContaining(because) }]);
  });
});
