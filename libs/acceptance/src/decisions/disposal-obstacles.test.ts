import { describe, expect, it } from 'vitest';
import { type CaseOfDisposal, disposalObstacles } from './disposal-obstacles.js';

const FREE: CaseOfDisposal = {
  specimen: '0417',
  lot: 'P-7',
  holds: [],
  keepUntil: '2031-06-30',
  today: '2031-07-01',
  openNonconformities: [],
  openSafetyFlags: [],
  decided: true,
};
/** Each thing that may stand in the way, by the kind of obstacle it is. */
const STANDS: Record<string, Partial<CaseOfDisposal>> = {
  'legal hold': { holds: [3, 4] },
  'keep-until': { today: '2031-06-30' },
  nonconformity: { openNonconformities: [12] },
  'safety flag': { openSafetyFlags: [2] },
  undecided: { decided: false },
};

// That a legal hold beats a keep-until, and that remnants are kept while a dispute is open, is common practice, no source.
describe('remnants may be disposed of', () => {
  const kinds = Object.keys(STANDS);
  for (let set = 0; set < 2 ** kinds.length; set++) {
    const standing = kinds.filter((_, index) => set & (1 << index));
    it(`with ${standing.length === 0 ? 'nothing' : standing.join(', ')} in the way: ${standing.length === 0 ? 'yes' : 'no'}`, () => {
      const given = Object.assign({}, FREE, ...standing.map((kind) => STANDS[kind]));
      const found = disposalObstacles(given);
      expect(found.map(({ kind }) => kind)).toEqual(standing);
      for (const { what, action } of found) expect(`${what} ${action}`).toMatch(/^[A-Z].*\. [A-Z].*\.$/);
    });
  }

  it('from the day after the last day, and never where nobody has said one', () => {
    for (const [today, free] of [
      ['2031-06-29', false],
      ['2031-06-30', false],
      ['2031-07-01', true],
    ] as const)
      expect(disposalObstacles({ ...FREE, today }).length === 0).toBe(free);
    expect(disposalObstacles({ ...FREE, keepUntil: undefined, today: '9999-01-01' })).toMatchObject([
      { kind: 'keep-until', what: 'Nobody has said until when specimen 0417 is kept.' },
    ]);
  });
});
