import { describe, expect, it } from 'vitest';
import { inventedContent } from '../../fixtures/invented-lot.js';
import { affairsSection } from './affairs.js';
import { notIncludedSection } from './closing.js';

const content = inventedContent({ specimens: 8, mixed: true });
const affairs: NonNullable<typeof content.affairs> = {
  nonconformities: [
    { number: 3, title: 'Run 164 does not conform', source: 'failed verdict', state: 'open', due: '2031-03-01' },
    { number: 4, title: 'Run 163 is invalid: rig fault', source: 'lab error', state: 'closed' },
  ],
  concessions: [
    {
      number: 1,
      kind: 'concession',
      state: 'granted',
      expired: true,
      limit: { limit: 'BP-INT', revision: 2 },
      departure: 'broke at 1726 kPa',
      bounds: { quantity: 40 },
      until: '2031-02-01',
      risk: 'less margin',
      requestedBy: 'ada',
      by: 'ben',
    },
  ],
  retests: [{ number: 2, line: 'A', runs: 2, used: ['170'], reason: 'The seal was cracked.', by: 'ada' }],
};
const told = (given: typeof content) => JSON.stringify(affairsSection(given).blocks);

describe('what follows a lot to its report (ISO/IEC 17025:2017, 7.10)', () => {
  it('is every nonconformity and concession, with state, bounds and end', () => {
    const text = told({ ...content, affairs });
    for (const said of ['Run 164 does not conform', 'open', 'rig fault', 'closed', '2031-03-01', 'not set'])
      expect(text).toContain(said);
    for (const said of ['granted, and over', 'BP-INT rev. 2', '40 units', '2031-02-01', 'less margin'])
      expect(text).toContain(said);
    expect(text).toContain('Retest 2 was authorised: 2 on line A, made: 170. The seal was cracked.');
    expect(JSON.stringify(notIncludedSection({ ...content, affairs }))).not.toContain('none recorded');
  });

  it('is said to be none where none is recorded', () => {
    const none = { nonconformities: [], concessions: [], retests: [] };
    expect(told({ ...content, affairs: none }).match(/none recorded/g)).toHaveLength(2);
    expect(JSON.stringify(notIncludedSection({ ...content, affairs: none })).match(/none recorded/g)).toHaveLength(2);
  });

  it('is each safety flag with its decision, how long things are kept, and each legal hold, where there is one', () => {
    const raised = { raisedBy: 'ada', raisedAt: '2031-02-07T08:00:00Z' };
    const text = told({
      ...content,
      affairs: {
        ...affairs,
        safetyFlags: [
          { number: 5, title: 'Cracks at the valve', state: 'open', ...raised },
          { number: 6, title: 'Loose bead', state: 'closed', decision: 'The lot is recalled.', ...raised },
        ],
        keeping: { recordsUntil: '2043-02-05', remnantsUntil: '2033-02-05' },
        legalHolds: [{ number: 2, reference: 'file 31/204' }],
      },
    });
    for (const said of ['Cracks at the valve', 'not decided', 'The lot is recalled.', '2031-02-07', 'licensed counsel'])
      expect(text).toContain(said);
    expect(text).toContain('kept until 2043-02-05, its remnants until 2033-02-05. On legal hold: 2 (file 31/204)');
    for (const said of ['safety', 'kept until', 'legal hold'])
      expect(told({ ...content, affairs })).not.toContain(said);
  });

  it('counts every run of every line, and prints each mark', () => {
    expect(content.attempts?.lines.map(({ runs }) => runs)).toEqual(content.lot.lines.map(({ counts }) => counts.runs));
    const attempts = { lines: [], repeated: [{ specimen: '402', runs: ['1', '2'] }], marks: ['The failure stands.'] };
    const text = told({ ...content, attempts });
    expect(text).toContain('402 (runs 1, 2)');
    expect(text).toContain('The failure stands.');
  });
});
