import { isNotEvaluated, type MovedInstant, Refusal, Run } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import { type HeatInvention, inventedHeatRun, ONE_STAGE } from './invented-heat.fixture.js';
import { inventedImpactRun, PULSE, strikeOf } from './invented-impact.fixture.js';
import { BURSTS_AT, type Invention, inventedRun, METHOD, RAMP } from './invented-run.fixture.js';
import { readRun } from './read-run.js';
import { named, numberOf } from './reading.fixture.js';
import type { RunInput } from './run-input.js';

const moved = (instant: MovedInstant['instant'], at: number, over: Partial<MovedInstant> = {}): MovedInstant => ({
  instant,
  at,
  reason: 'the crack is heard on the video at this moment',
  person: 'p2',
  movedAt: '2031-03-04T12:00:00Z',
  ...over,
});
const withMoves = (input: RunInput, ...instants: MovedInstant[]): RunInput => ({
  ...input,
  run: { ...input.run, instants },
});
const burst = (instants: MovedInstant[], over: Partial<Invention> = {}) =>
  readRun(withMoves(inventedRun({ noise: 0, ...over }), ...instants)).reading;
const eventIn = (reading: ReturnType<typeof burst>, name: string) => reading.events.find((one) => one.name === name);
const checkIn = (reading: ReturnType<typeof burst>) => reading.checks.find(({ check }) => check === 'moved failure');
const refusalOf = (act: () => unknown) => {
  try {
    act();
  } catch (error) {
    if (error instanceof Refusal) return error.problems[0];
    throw error;
  }
  throw new Error('not refused');
};

describe('the failure of a burst, moved by a person', () => {
  const proposed = readRun(inventedRun({ noise: 0 })).reading;

  it('is where the pressure is taken: on a straight ramp P = rate · (t − begin), closed form', () => {
    // Ten seconds after the ramp began it stands at 200 kPa; the last sample before that, by a median of 5, at 199.8.
    const reading = burst([moved('failure', RAMP.begins + 10)]);
    expect(numberOf(reading, 'burstPressure')).toBeCloseTo(RAMP.rate * (10 - 0.01), 6);
    expect(named(reading, 'burstPressure').value).toMatchObject({ kind: 'exact' });
    // Half the height times the length of the ramp up to there.
    expect(numberOf(reading, 'pressureTimeIndex')).toBeCloseTo((RAMP.rate * 9.99 * 9.99) / 2, 3);
    expect(eventIn(reading, 'failure')).toMatchObject({
      time: 13,
      moved: { by: 'p2', proposed: expect.closeTo(BURSTS_AT + 0.01, 9) },
    });
  });

  it('is told with what was proposed, by whom and why, in every number it changed and in no other', () => {
    const reading = burst([moved('failure', 77)]);
    const step = named(reading, 'burstPressure').steps.at(-1);
    expect(step).toMatchObject({
      numbers: {
        'failure proposed, s': expect.closeTo(78.01, 9),
        'failure moved to, s': 77,
        'as moved': expect.stringMatching(/^1.479\.8 kPa$/),
      },
      answer: expect.stringMatching(
        /proposed 78\.01 s; moved to 77 s by p2, because "the crack is heard.*As proposed it was 1.499\.6 kPa; it is 1.479\.8 kPa\.$/,
      ),
    });
    expect(named(reading, 'longestHold').steps).toEqual(named(proposed, 'longestHold').steps);
    expect(checkIn(reading)).toMatchObject({
      outcome: 'flag',
      place: { channel: 'rimPressure', from: 77, to: expect.closeTo(78.01, 9) },
    });
    expect(reading.proposedValidity).toBe('needs a look');
  });

  it('changes nothing where it is confirmed as proposed, and says so', () => {
    const reading = burst([moved('failure', eventIn(proposed, 'failure')?.time ?? 0, { loss: 'burst' })]);
    expect(reading.characteristics.map(({ value }) => value)).toEqual(
      proposed.characteristics.map(({ value }) => value),
    );
    expect(checkIn(reading)).toMatchObject({
      outcome: 'pass',
      finding: expect.stringContaining('was proposed, and confirmed by p2'),
    });
  });

  it.each(['leak', 'tyre off'] as const)('is no burst of the rim where the pressure was lost by a %s', (loss) => {
    const reading = burst([moved('failure', eventIn(proposed, 'failure')?.time ?? 0, { loss })]);
    expect(named(reading, 'burstPressure').value).toEqual({
      kind: 'atLeast',
      value: numberOf(proposed, 'burstPressure'),
    });
    expect(eventIn(reading, 'failure')).toMatchObject({ loss });
    expect(checkIn(reading)).toMatchObject({ outcome: 'flag', finding: expect.stringContaining(`(${loss})`) });
  });

  it('is a burst where the record alone shows none', () => {
    const noFall: Partial<Invention> = {
      noise: 0.3,
      pressure: (time) => Math.max(0, RAMP.rate * (Math.min(time, 60) - 3)),
    };
    expect(named(readRun(inventedRun(noFall)).reading, 'burstPressure').value).toMatchObject({
      kind: 'atLeast',
    });
    const reading = burst([moved('failure', 70)], noFall);
    expect(named(reading, 'burstPressure').value).toMatchObject({ kind: 'exact' });
    expect(checkIn(reading)?.finding).toContain('none was proposed; put at 70 s');
  });

  it('is proposed as what the examination names first; the number is not touched by that', () => {
    const method = {
      failureModes: [
        { code: 'BT-OFF', meaning: 'tyre came off', countsAs: { burstPressure: 'at least' }, loss: 'tyre off' },
      ],
    } as const;
    const input = inventedRun({ noise: 0, method: { ...METHOD, ...structuredClone(method) } });
    if (input.run.examination) input.run.examination.modes = [{ code: 'BT-OFF' }];
    const { reading } = readRun(input);
    expect(eventIn(reading, 'failure')).toMatchObject({ loss: 'tyre off' });
    expect(named(reading, 'burstPressure').value).toEqual(named(proposed, 'burstPressure').value);
  });

  it('is proposed where a leak begins', () => {
    // Half a per cent of the peak a second from the 60th second on: slower than any burst (common practice, no source).
    const leaking = (time: number) =>
      time < 60 ? Math.max(0, RAMP.rate * (time - 3)) : 1140 * (1 - 0.005 * (time - 60));
    const { reading } = readRun(inventedRun({ noise: 0, pressure: leaking, seconds: 100 }));
    const leak = eventIn(reading, 'failure');
    expect(leak).toMatchObject({ loss: 'leak' });
    // Found where it last stood within a tenth of the fall asked for, here 1 % of the peak: two seconds after it began.
    expect(Math.abs((leak?.time ?? 0) - 62)).toBeLessThan(0.1);
  });

  it('gives the same again, number for number', () => {
    const input = withMoves(inventedRun(), moved('failure', 50));
    expect(readRun(input).reading).toEqual(readRun(structuredClone(input)).reading);
  });
});

describe('the failure of a heat run, moved by a person', () => {
  // The brake comes on at 20 s of the record's clock or later; the tyre fails after 150 s of braking.
  const over: Partial<HeatInvention> = { ...ONE_STAGE, failsAfter: 150, noise: 0, endReason: 'something broke' };
  const proposed = readRun(inventedHeatRun(over)).reading;
  const failure = proposed.events.find(({ name }) => name === 'failure')?.time ?? 0;

  it('ends the energy there: at 600 W constant, ΔE = P Δt, closed form', () => {
    const { reading } = readRun(withMoves(inventedHeatRun(over), moved('failure', failure - 50)));
    const [was, is] = [numberOf(proposed, 'energySurvived'), numberOf(reading, 'energySurvived')];
    expect((was - is) / (600 * 50)).toBeCloseTo(1, 2);
    expect(named(reading, 'timeSurvived').value).toMatchObject({ kind: 'exact' });
    expect(named(reading, 'temperatureAtFailure').steps.some(({ answer }) => answer.includes('As a person says'))).toBe(
      true,
    );
    // What the record alone showed is still there.
    expect(reading.events.map(({ name }) => name)).toContain('sudden end: tyre pressure');
  });

  it('is one of the candidates where it is put on one', () => {
    const { reading } = readRun(withMoves(inventedHeatRun(over), moved('failure', failure)));
    expect(reading.characteristics.map(({ value }) => value)).toEqual(
      proposed.characteristics.map(({ value }) => value),
    );
    expect(checkIn(reading)?.outcome).toBe('pass');
  });
});

describe('the contact of a strike, moved by a person', () => {
  const strike = strikeOf(40);
  const contactTime = (instants: MovedInstant[]) =>
    readRun(withMoves(inventedImpactRun({ noise: 0 }), ...instants)).reading;

  it('is integrated between the moments given: a half sine over half its time has half its impulse, closed form', () => {
    const reading = contactTime([moved('contact begins', 0), moved('contact ends', PULSE / 2)]);
    expect(numberOf(reading, 'contactTime')).toBeCloseTo((1000 * PULSE) / 2, 1);
    expect(numberOf(reading, 'impulse') / (strike.impulse / 2)).toBeCloseTo(1, 2);
    expect(reading.events.filter(({ moved: by }) => by).map(({ name }) => name)).toEqual([
      'contact begins',
      'contact ends',
    ]);
  });

  it('is moved in the strike that is named, and in no other', () => {
    const input = inventedImpactRun({ noise: 0, energies: [20, 40] });
    const before = readRun(input).reading;
    const after = readRun(withMoves(input, moved('contact ends', PULSE / 2, { passage: 1 }))).reading;
    const impulse = (reading: typeof before, passage: number) =>
      reading.passages
        ?.find((one) => one.passage === passage)
        ?.characteristics.find(({ characteristic }) => characteristic === 'impulse');
    expect(impulse(after, 2)).toEqual(impulse(before, 2));
    expect(impulse(after, 1)?.steps.at(-1)?.answer).toContain('contact ends proposed');
    expect(after.checks.filter(({ check }) => check === 'moved contact ends').map(({ passage }) => passage)).toEqual([
      1,
    ]);
  });

  it('is found where the record alone shows none', () => {
    const flat = inventedImpactRun({ noise: 3, force: () => 0 });
    const value = (input: RunInput) => named(readRun(input).reading, 'contactTime').value;
    expect(isNotEvaluated(value(flat))).toBe(true);
    expect(value(withMoves(flat, moved('contact begins', 0), moved('contact ends', 0.004)))).toMatchObject({
      kind: 'exact',
      value: expect.closeTo(4, 1),
    });
    expect(refusalOf(() => value(withMoves(flat, moved('contact begins', 0))))).toMatchObject({
      code: 'body.range',
      action: expect.stringContaining('give both beginning and end'),
    });
  });
});

describe('a moved moment is refused', () => {
  const refused = (input: RunInput, one: MovedInstant) => refusalOf(() => readRun(withMoves(input, one)));

  it('outside the record, with the record’s own times', () => {
    expect(refused(inventedRun(), moved('failure', 90))).toMatchObject({
      code: 'body.range',
      pointer: '/instants/0/at',
      found: '90',
      expected: '0 to 81.99 s',
    });
    expect(refused(inventedRun(), moved('failure', -1))).toMatchObject({ code: 'body.range' });
  });

  it('where the test has no such moment or passage', () => {
    expect(refused(inventedRun(), moved('contact ends', 10))).toMatchObject({ code: 'body.enum', expected: 'failure' });
    expect(refused(inventedRun(), moved('failure', 10, { passage: 1 }))).toMatchObject({ code: 'body.not-found' });
    const strikes = inventedImpactRun({ energies: [20, 40] });
    expect(refused(strikes, moved('contact ends', 0.003))).toMatchObject({ code: 'body.missing-field' });
    expect(refused(strikes, moved('contact ends', 0.003, { passage: 3 }))).toMatchObject({ code: 'body.not-found' });
    expect(refused(inventedHeatRun(), moved('failure', 10, { loss: 'leak' }))).toMatchObject({
      code: 'body.unknown-field',
    });
  });

  it('where one moment is in two places, or a contact is told to have leaked', () => {
    const { run } = inventedRun();
    expect(Run.safeParse({ ...run, instants: [moved('failure', 1), moved('failure', 2)] }).success).toBe(false);
    expect(Run.safeParse({ ...run, instants: [moved('contact ends', 1, { loss: 'leak' })] }).success).toBe(false);
    expect(Run.safeParse({ ...run, instants: [moved('failure', 1, { loss: 'leak' })] }).success).toBe(true);
  });
});
