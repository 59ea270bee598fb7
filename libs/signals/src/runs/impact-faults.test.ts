import type { Measurement } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import { type ImpactInvention, inventedImpactRun, PULSE, strikeOf } from './invented-impact.fixture.js';
import { readRun } from './read-run.js';
import { named, seenIn } from './reading.fixture.js';

const seen = (over: Partial<ImpactInvention> = {}) => seenIn(readRun(inventedImpactRun(over)));

describe('a faultless strike', () => {
  it.each([0.5, 3, 15])('with %d N of noise passes every check', (noise) => {
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
      ['clipping: flag', 'range used: flag', 'smoothness: flag'],
      ['signal.saturated', 'signal.too-smooth'],
    ],
    [
      'a displacement that is late by half a millisecond',
      { displacement: (_, t) => (t < 0.0005 ? 0 : strikeOf(40).deflection(Math.min(t - 0.0005, PULSE))) },
      ['late displacement: flag'],
      ['signal.misaligned'],
    ],
    [
      'a force in steps of 50 N',
      { text: (text) => text.replaceAll(/,(-?\d+\.\d+)$/gm, (_, force) => `,${50 * Math.round(Number(force) / 50)}`) },
      ['resolution: flag'],
      ['signal.resolution'],
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
