import { describe, expect, it } from 'vitest';
import { examined, externalLimit, internalLimit } from '../fixtures/invented-lot.js';
import { bound, complete, judged, tyreOff } from '../fixtures/judged-lot.js';

describe('what a reader must know beside the numbers', () => {
  it('names a failed external limit, in the claim or not, and that it is never conceded', () => {
    const limits = [internalLimit(1500), externalLimit(1300)];
    const result = judged([...complete, { value: 1200, origin: 'hand-picked' }], { limits });
    expect(result.outcome).toBe('meets the plan');
    expect(result.notes[0]).toBe(
      'External limit failed: 1 specimen (0406) does not conform to the limit of at least 1 300 kPa (BP-EXT rev. 2), basis governing body. A failed external limit is never conceded in the claimed use.',
    );
    expect(result.notes).toEqual(
      expect.arrayContaining([
        'Not drawn at random, shown and left out of every claim: 0406 (hand-picked).',
        'Examples the lab has yet to confirm against its own copy of the source: BP-EXT rev. 2.',
      ]),
    );
  });

  it('states that modes are taken as independent where they were told apart', () => {
    const result = judged(complete.map((one, index) => (index === 4 ? { ...one, examination: tyreOff } : one)));
    expect(result.notes.join(' ')).toContain(
      'other modes (BT-OFF) on sound parts are counted as "at least"; this assumes',
    );
  });

  it('names runs counted as failures because the part was not found sound', () => {
    const doubtful = examined('something broke', ['BT-OFF'], 'not examined');
    const result = judged([...complete.slice(0, 4), { value: 1900, examination: doubtful }]);
    expect(result.notes.join(' ')).toContain('counted as failures of the part because it was not found sound: R-5');
    expect(result.notes.join(' ')).not.toContain('independently');
  });

  it('says so when the lab did not draw the specimens', () => {
    expect(judged(complete, { sampled: false }).notes.join(' ')).toContain('results apply to the sample as received');
    expect(judged(complete).notes.join(' ')).not.toContain('as received');
  });

  it('says that a fitted bound speaks of the process where the plan claims the lot', () => {
    const result = judged(complete, { population: 'lot', criteria: [bound('normal')] });
    expect(result.lines[0]?.criteria[0]?.statement).toContain('At least 90 % of the process holds');
    expect(result.notes.join(' ')).toContain('speaks of the process that made lot L-0031');
  });
});
