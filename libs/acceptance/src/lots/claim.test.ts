import type { PlanLine } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import { internalLimit, planOf, runOf, specimenOf, validBy } from '../fixtures/invented-lot.js';
import { complete, judged, survived, type Tested } from '../fixtures/judged-lot.js';
import { claimOf } from './claim.js';

const onePlan = planOf({ limits: [internalLimit(1500)] });

describe('which runs make the claim', () => {
  const because = (result: ReturnType<typeof judged>, run: string) =>
    result.lines[0]?.entries.find((entry) => entry.run === run);

  it.each<[string, Tested, string]>([
    [
      'hand-picked',
      { value: 1800, origin: 'hand-picked' },
      'hand-picked: only specimens drawn at random speak for the lot',
    ],
    ['a field return', { value: 1800, origin: 'field return' }, 'field return: only specimens drawn at random'],
    ['suspect', { value: 1800, origin: 'suspect' }, 'suspect: only'],
    ['invalid', { value: 1800, validity: { ...validBy('invalid'), reason: 'sensor fault' } }, 'invalid: sensor fault'],
    ['void', { value: 1800, validity: validBy('void') }, 'void: the record was entered by mistake'],
    ['not decided', { value: 1800, validity: undefined }, 'its validity is not decided yet'],
    ['loaded before', { value: 1800, specimen: '0401' }, 'specimen 0401 was loaded before, in run R-1'],
  ])('leaves out a run that is %s, and shows why', (_, tested, reason) => {
    const result = judged([...complete.slice(0, 4), tested]);
    expect(because(result, 'R-5')).toMatchObject({ inClaim: false, because: expect.stringContaining(reason) });
    expect(result.lines[0]?.counts).toMatchObject({ runs: 5, inClaim: 4 });
    expect(result.outcome).toBe('undecided');
  });

  it('counts a run that is valid with deviation', () => {
    const result = judged([
      ...complete.slice(0, 4),
      { value: 1900, validity: { ...validBy('valid with deviation'), note: 'room at 29 °C' } },
    ]);
    expect(result.lines[0]?.counts).toMatchObject({ valid: 4, withDeviation: 1, inClaim: 5 });
    expect(result.notes).toContain('Valid with deviation, and counted: R-5 (room at 29 °C).');
  });

  it('never takes a run beyond the planned number, however good or bad', () => {
    const result = judged([...complete, { value: 2400 }, { value: 1400 }]);
    expect(because(result, 'R-6')).toMatchObject({ inClaim: false, because: 'beyond the 5 specimens planned' });
    expect(result.outcome).toBe('meets the plan');
    expect(result.notes).toEqual(
      expect.arrayContaining([
        expect.stringContaining('2 runs beyond the planned number (R-6, R-7)'),
        expect.stringContaining('Run R-7 (specimen 0407) is valid and does not conform'),
      ]),
    );
  });

  it('keeps the place of a run that is not decided, so that no later one is tested in its stead', () => {
    const result = judged([{ value: 1600, validity: undefined }, ...complete]);
    expect(because(result, 'R-6')).toMatchObject({ inClaim: false, because: 'beyond the 5 specimens planned' });
    expect(result.lines[0]?.criteria[0]).toMatchObject({
      outcome: 'not yet decidable',
      possibleIf: '1 run recorded already can be read and decided',
    });
  });

  it('keeps the place of a run whose file was refused', () => {
    const result = judged(complete, { unread: { after: 0, specimen: '0499' } });
    expect(because(result, 'R-X')).toMatchObject({
      inClaim: false,
      because: expect.stringContaining('its file was refused: R-X.csv, line 900'),
    });
    expect(because(result, 'R-5')).toMatchObject({ inClaim: false, because: 'beyond the 5 specimens planned' });
    expect(result.outcome).toBe('undecided');
    expect(result.notes.join(' ')).toContain(
      'Run R-X (specimen 0499) is not judged: its file was refused and is kept unread.',
    );
  });

  it('lets an invalid run be replaced by the next specimen drawn', () => {
    const invalid = { value: 900, validity: { ...validBy('invalid'), reason: 'wrong mounting' as const } };
    const result = judged([invalid, ...complete]);
    expect(result.outcome).toBe('meets the plan');
    expect(result.notes).toContain('1 of 6 runs is invalid: R-1 (wrong mounting).');
  });

  it('takes an invalid run for none where the part was found sound after it, and the plan’s own survivors', () => {
    const sound = { ...validBy('invalid'), reason: 'sensor fault' as const };
    const again = judged(
      [{ value: 900, specimen: '0401', validity: sound, examination: survived }, ...complete].map((one, index) =>
        index === 1 ? { ...one, specimen: '0401' } : { specimen: `04${index + 10}`, ...one },
      ),
    );
    expect(again.lines[0]?.counts).toMatchObject({ runs: 6, invalid: 1, inClaim: 5 });

    const runs = [runOf('F-1', '0401'), runOf('R-1', '0401')].map((run, index) => ({
      ...run,
      planLine: index === 0 ? 'fatigue' : 'burst',
      examination: survived,
    }));
    const claimed = (survivorsOf?: string[]) => {
      const line = { ...onePlan.lines[0], specimens: 1, ...(survivorsOf ? { survivorsOf } : {}) } as PlanLine;
      const plan = { ...onePlan, lines: [line, { ...line, line: 'fatigue' }] };
      const waiting = runs.map((run) => ({ run, unread: [] }));
      return claimOf(line, plan, waiting, [specimenOf('0401')]).entries[0]?.because;
    };
    expect(claimed()).toContain('was loaded before, in run F-1');
    expect(claimed(['fatigue'])).toContain('its file was refused');
  });
});
