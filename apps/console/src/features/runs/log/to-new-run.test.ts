import { describe, expect, it } from 'vitest';
import { bundle } from '../../lots/invented-answer.fixture.js';
import { type Draft, newDraft } from './draft.js';
import { type Named, toNewRun } from './to-new-run.js';
import { typedNumber } from './typed-number.js';

const [method] = bundle.methods;
if (!method) throw new Error('The invented lot has no method.');

const named: Named = {
  specimen: 'S1',
  plan: { plan: 'P-1', revision: 1 },
  line: 'A',
  method,
  layoutRevision: 1,
  person: 'p-one',
  zone: 'Europe/Lisbon',
  number: 'S1-1',
  now: '2026-09-28T09:00:00.000Z',
};
const whole: Draft = { ...newDraft('S1'), rig: 'R1', startedAt: '2026-09-28T07:50:00' };
const made = (change: Partial<Draft>) => toNewRun({ ...whole, ...change }, named);

describe('toNewRun', () => {
  it('makes a run under the proposed number, its start read on the clock of the lab', () => {
    // Lisbon keeps UTC+1 in September (directive 2000/84/EC).
    expect(made({})).toMatchObject({
      run: { run: 'S1-1', specimen: 'S1', operator: 'p-one', startedAt: '2026-09-28T06:50:00.000Z', layoutRevision: 1 },
    });
  });

  it('is the same to the letter when it is made again, so that sending it again makes no second run', () => {
    expect(JSON.stringify(made({ note: 'Split.', endReason: 'something broke', partSound: 'not sound' }))).toBe(
      JSON.stringify(made({ note: 'Split.', endReason: 'something broke', partSound: 'not sound' })),
    );
  });

  it('records readiness only where every line was confirmed', () => {
    expect(made({ ready: [0], readyAt: '2026-09-28T06:40:00Z' })).not.toHaveProperty('run.readiness');
    expect(made({ ready: [1, 0], readyAt: '2026-09-28T06:40:00Z' })).toHaveProperty('run.readiness', {
      confirmedBy: 'p-one',
      at: '2026-09-28T06:40:00Z',
    });
  });

  it('keeps failure modes in the order in which they came', () => {
    const modes = [
      { code: 'BF-X', place: ' left side ' },
      { code: 'BF-Y', place: '' },
    ];
    expect(made({ modes, endReason: 'something broke', partSound: 'not sound' })).toHaveProperty(
      'run.examination.modes',
      [{ code: 'BF-X', place: 'left side' }, { code: 'BF-Y' }],
    );
  });

  it('lets the examination follow later, but not half of it', () => {
    expect(made({})).not.toHaveProperty('run.examination');
    expect(made({ endReason: 'rig limit reached' })).toEqual({
      lacking: ['Whether the part was found sound is missing; say so where nobody looked.'],
    });
  });

  it('says whose a value is only where the lab did not measure it', () => {
    const row = {
      id: '1',
      of: 'rimWidth',
      value: '26.8',
      unit: 'mm',
      instrument: 'calliper',
      givenBy: '' as const,
      place: '',
      passage: '',
      at: '2026-09-28T07:00:00',
    };
    const { run } = made({
      measurements: [row, { ...row, id: '2', givenBy: 'customer' }],
    }) as { run: { measurements: object[] } };
    expect(run.measurements[0]).not.toHaveProperty('givenBy');
    expect(run.measurements[1]).toHaveProperty('givenBy', 'customer');
  });

  it('names everything that lacks at once, and assumes no unit', () => {
    const measurement = {
      id: '1',
      of: 'rimWidth',
      value: '26,8',
      unit: '',
      instrument: '',
      givenBy: '' as const,
      place: '',
      passage: '',
      at: '',
    };
    const { lacking } = made({ startedAt: '', measurements: [measurement] }) as { lacking: string[] };
    expect(lacking).toEqual([
      "When the run began: say when, as the lab's clock showed it.",
      'Measurement 1: “26,8” has a comma, which could part thousands or decimals. Write a decimal point.',
      'Measurement 1: choose the unit; nothing is assumed.',
      'Measurement 1, its instrument, is missing.',
      "Measurement 1, when it was read: say when, as the lab's clock showed it.",
    ]);
  });
});

describe('typedNumber', () => {
  it.each([
    ['26.80', 26.8],
    [' -0.5 ', -0.5],
    ['423', 423],
  ])('reads %j', (text, value) => expect(typedNumber(text)).toEqual({ value }));

  it.each(['', '1.', '1e3', '1 234', '0x10', 'NaN', '١٢'])('does not guess at %j', (text) => {
    expect(typedNumber(text)).toHaveProperty('said');
  });
});
