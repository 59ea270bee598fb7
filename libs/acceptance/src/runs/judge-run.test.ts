import type { CharacteristicValue, Examination, Run } from '@breakbook/lab';
import { isNotEvaluated, notEvaluated } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import { burstMethod, examined, internalLimit, planOf, readingOf, runOf, validBy } from '../fixtures/invented-lot.js';
import { judgeRun } from './judge-run.js';

const limit = internalLimit(1500);
const plan = planOf({ limits: [limit] });
const exact: CharacteristicValue = { kind: 'exact', value: 1842 };

function judge(run: Run, value: Parameters<typeof readingOf>[1] = exact) {
  return judgeRun({ plan, method: burstMethod, limits: [limit], reading: readingOf(run, value), run });
}
const resultOf = (run: Run, value?: Parameters<typeof readingOf>[1]) => judge(run, value).results[0];
const runWith = (examination: Examination | undefined) => runOf('R-1', '0417', { examination });

describe('what the record and the examination say together', () => {
  // A tyre that came off a sound rim tells "at least"; common practice, and Meeker and Escobar (1998), 15.4 (from memory).
  it.each<[string, Examination, CharacteristicValue, string]>([
    [
      'the rim broke',
      examined('something broke', ['BF-FLG'], 'not sound'),
      exact,
      'BF-FLG (bead flange broke) came first',
    ],
    [
      'the tyre came off a sound rim',
      examined('something broke', ['BT-OFF'], 'sound'),
      { kind: 'atLeast', value: 1842 },
      'BT-OFF (tyre came off) came first and the part was found sound',
    ],
    [
      'the tyre came off a rim found cracked',
      examined('something broke', ['BT-OFF'], 'not sound'),
      exact,
      'counted as a failure of the part',
    ],
    [
      'the tyre came off and nobody looked at the rim',
      examined('something broke', ['BT-OFF'], 'not examined'),
      exact,
      'whether the part is sound was not looked at: counted as a failure',
    ],
    [
      'the tyre came off first and the rim broke after it',
      examined('something broke', ['BT-OFF', 'BF-FLG'], 'sound'),
      exact,
      'BF-FLG (bead flange broke) was found too: counted as a failure',
    ],
    [
      'the rim broke although it is noted as sound',
      examined('something broke', ['BF-FLG'], 'sound'),
      exact,
      'counts as a failure although the part is noted as sound',
    ],
    [
      'the rig reached its limit',
      examined('rig limit reached', [], 'sound'),
      { kind: 'atLeast', value: 1842 },
      'the run ended without a break (rig limit reached) and the part was found sound',
    ],
    [
      'the programme ended',
      examined('programme ended', [], 'not examined'),
      { kind: 'atLeast', value: 1842 },
      'the run ended without a break (programme ended)',
    ],
    [
      'the run was stopped early',
      examined('stopped early', [], 'sound'),
      { kind: 'atLeast', value: 1842 },
      'stopped early',
    ],
    [
      'the rig reached its limit, and the rim was found cracked',
      examined('rig limit reached', [], 'not sound'),
      exact,
      'the part was found not sound: counted as a failure',
    ],
    [
      'the programme ended, and the flange was found broken',
      examined('programme ended', ['BF-FLG'], 'not sound'),
      exact,
      'BF-FLG (bead flange broke) was found: counted as a failure',
    ],
    [
      'the rig failed before a sound rim',
      examined('rig fault', [], 'sound'),
      { kind: 'atLeast', value: 1842 },
      'the rig failed before the part',
    ],
    [
      'the rig failed and the rim was not looked at',
      examined('rig fault', [], 'not examined'),
      exact,
      'counted as a failure',
    ],
  ])('%s', (_, examination, value, because) => {
    expect(resultOf(runWith(examination))).toMatchObject({ value, because: expect.stringContaining(because) });
  });

  it.each<[string, Examination | undefined, string]>([
    ['no examination', undefined, 'no examination of the specimen is recorded'],
    ['something broke, no mode named', examined('something broke', [], 'not sound'), 'names no failure mode'],
    ['a mode the method does not know', examined('something broke', ['ZZ-TOP'], 'sound'), 'does not know'],
    [
      'a mode that says nothing',
      examined('something broke', ['BX-PUMP'], 'sound'),
      'say nothing of this characteristic',
    ],
  ])('is not evaluated after %s', (_, examination, because) => {
    const result = resultOf(runWith(examination));
    expect(result?.because).toContain(because);
    expect(isNotEvaluated(result?.value)).toBe(true);
  });

  // A record that shows one side only never becomes exact by what a person saw.
  it.each<[string, CharacteristicValue, Examination, CharacteristicValue | 'not evaluated']>([
    [
      'a saturated peak and a broken rim',
      { kind: 'atLeast', value: 2500 },
      examined('something broke', ['BF-FLG'], 'not sound'),
      { kind: 'atLeast', value: 2500 },
    ],
    [
      'a saturated peak and a tyre that came off a sound rim',
      { kind: 'atLeast', value: 2500 },
      examined('something broke', ['BT-OFF'], 'sound'),
      { kind: 'atLeast', value: 2500 },
    ],
    [
      'a step test and a broken rim',
      { kind: 'between', lower: 1800, upper: 1850 },
      examined('something broke', ['BF-FLG'], 'not sound'),
      { kind: 'between', lower: 1800, upper: 1850 },
    ],
    [
      'a step test and a tyre that came off a sound rim',
      { kind: 'between', lower: 1800, upper: 1850 },
      examined('something broke', ['BT-OFF'], 'sound'),
      { kind: 'atLeast', value: 1800 },
    ],
    [
      'a highest value only, and no break',
      { kind: 'atMost', value: 1900 },
      examined('stopped early', [], 'sound'),
      'not evaluated',
    ],
  ])('%s', (_, value, examination, expected) => {
    const result = resultOf(runWith(examination), value);
    if (expected === 'not evaluated') expect(isNotEvaluated(result?.value)).toBe(true);
    else expect(result?.value).toEqual(expected);
  });

  // One strike: the record says that the wheel was loaded with 41 J; found cracked, it broke at that or below.
  it.each<[string, Examination, CharacteristicValue, CharacteristicValue | 'not evaluated']>([
    [
      'broken',
      examined('something broke', ['BF-FLG'], 'not sound'),
      { kind: 'atMost', value: 41 },
      { kind: 'atMost', value: 41 },
    ],
    ['sound', examined('programme ended', [], 'sound'), { kind: 'atMost', value: 41 }, { kind: 'atLeast', value: 40 }],
    [
      'not sound after all',
      examined('programme ended', [], 'not sound'),
      { kind: 'atMost', value: 41 },
      { kind: 'atMost', value: 41 },
    ],
    [
      'cracked after all',
      examined('programme ended', ['BF-FLG'], 'not sound'),
      { kind: 'atMost', value: 41 },
      { kind: 'atMost', value: 41 },
    ],
    [
      'doubtful',
      examined('something broke', ['BT-OFF'], 'not examined'),
      { kind: 'atMost', value: 41 },
      { kind: 'atMost', value: 41 },
    ],
    [
      'something else gave way',
      examined('something broke', ['BT-OFF'], 'sound'),
      { kind: 'atMost', value: 41 },
      { kind: 'atLeast', value: 40 },
    ],
    [
      'between two strikes',
      examined('something broke', ['BF-FLG'], 'not sound'),
      { kind: 'between', lower: 35, upper: 41 },
      { kind: 'between', lower: 35, upper: 41 },
    ],
  ])('takes what the record says of a part found %s', (_, examination, ifBroken, expected) => {
    const run = runWith(examination);
    const reading = readingOf(run, { kind: 'atLeast', value: 40 });
    const [first, ...others] = reading.characteristics;
    if (!first) throw new Error('no characteristic');
    const caution = 'one wheel, never pooled';
    const judged = judgeRun({
      plan,
      method: burstMethod,
      limits: [limit],
      reading: { ...reading, characteristics: [{ ...first, ifBroken, caution }, ...others] },
      run,
    });
    expect(judged.results[0]?.value).toEqual(expected);
    expect(judged.results[0]?.because).toMatch(/; one wheel, never pooled$/);
  });

  it('has no value of a broken part where the record cannot bound it', () => {
    const run = runWith(examined('something broke', ['BF-FLG'], 'not sound'));
    const reading = readingOf(run, { kind: 'atLeast', value: 40 });
    const [first] = reading.characteristics;
    if (!first) throw new Error('no characteristic');
    const ifBroken = notEvaluated('the energy in a gap of the record is not known', 'the run has no gap');
    const judged = judgeRun({
      plan,
      method: burstMethod,
      limits: [limit],
      reading: { ...reading, characteristics: [{ ...first, ifBroken }] },
      run,
    });
    expect(judged.results[0]).toMatchObject({
      value: ifBroken,
      because: 'BF-FLG (bead flange broke) came first; the energy in a gap of the record is not known',
    });
  });

  it('keeps why the record has no value', () => {
    const run = runWith(examined('something broke', ['BF-FLG'], 'not sound'));
    expect(resultOf(run, notEvaluated('the trace has a gap at the peak', 'the run is repeated'))).toMatchObject({
      value: { notEvaluated: { because: 'the trace has a gap at the peak', possibleIf: 'the run is repeated' } },
    });
  });

  it('takes a characteristic that no failure mode bears on as recorded, examined or not', () => {
    expect(judge(runWith(undefined)).results[1]).toMatchObject({
      characteristic: 'rampRate',
      value: { kind: 'exact', value: 20 },
    });
  });
});

describe('verdicts of a run', () => {
  const broke = examined('something broke', ['BF-FLG'], 'not sound');

  it('gives none before validity is decided', () => {
    expect(judge(runOf('R-1', '0417', { examination: broke, validity: undefined }))).toMatchObject({
      validity: 'not decided',
      verdicts: [],
    });
  });

  it.each(['valid', 'valid with deviation'] as const)('judges a %s run', (validity) => {
    expect(judge(runOf('R-1', '0417', { examination: broke, validity: validBy(validity) }))).toMatchObject({
      validity,
      verdicts: [{ outcome: 'conforms', margin: 342 }],
    });
  });

  it.each([
    [
      'invalid',
      { ...validBy('invalid'), reason: 'rig fault', note: 'the pump lost its prime' },
      'invalid (rig fault: the pump lost its prime)',
    ],
    ['void', validBy('void'), 'void'],
  ] as const)('says why a %s run has no verdict', (validity, decision, because) => {
    const judgement = judge(runOf('R-1', '0417', { examination: broke, validity: decision }));
    expect(judgement).toMatchObject({
      validity,
      verdicts: [{ outcome: 'not evaluated', because: `the run is ${because}`, possibleIf: expect.any(String) }],
    });
    expect(judgement.verdicts[0]).not.toHaveProperty('value');
    expect(judgement.results[0]).toMatchObject({ value: exact });
  });

  it('says that the run does not give what a limit is about', () => {
    const width = { ...limit, limit: 'W-EXT', characteristic: 'rimWidth', title: 'Rim width', unit: 'mm' };
    const run = runOf('R-1', '0417', { examination: broke });
    const judgement = judgeRun({
      plan: planOf({ limits: [width] }),
      method: burstMethod,
      limits: [width],
      reading: readingOf(run, exact),
      run,
    });
    expect(judgement.verdicts[0]).toMatchObject({ outcome: 'not evaluated', because: 'the run gives no rimWidth' });
  });

  it('refuses a run of another plan', () => {
    expect(() => judge({ ...runOf('R-1', '0417', {}), planLine: 'heat' })).toThrow(
      'Run R-1 names plan line heat, which plan P-DUNLIN rev. 1 does not have. Its lines are burst.',
    );
  });

  it('refuses a plan whose limit is not there', () => {
    const run = runOf('R-1', '0417', { examination: broke });
    expect(() => judgeRun({ plan, method: burstMethod, limits: [], reading: readingOf(run, exact), run })).toThrow(
      'BP-INT rev. 2, which plan P-DUNLIN rev. 1 names in line burst, is not there',
    );
  });
});
