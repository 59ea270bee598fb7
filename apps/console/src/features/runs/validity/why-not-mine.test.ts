import { describe, expect, it } from 'vitest';
import { bundle } from '../../lots/invented-answer.fixture.js';
import { whyNotMine } from './why-not-mine.js';

const [run] = bundle.runs;
if (!run) throw new Error('The invented lot has no run.');

describe('whyNotMine', () => {
  // Record and review on one run are a forbidden pair (the lab's own rule, as ISO/IEC 17025:2017, 4.1 asks for impartiality; from memory).
  it('keeps a reviewer from a run they made, with the reason', () => {
    const said = whyNotMine({ person: 'p-one', duties: ['review', 'record'] }, { recordedBy: 'p-one', run });
    expect(said).toContain('you recorded it, made it and examined the specimen');
  });

  it('keeps out whoever has no such duty', () => {
    expect(whyNotMine({ person: 'p-three', duties: ['record'] }, { recordedBy: 'p-one', run })).toContain(
      'duty to review',
    );
  });

  it('lets another reviewer decide', () => {
    expect(whyNotMine({ person: 'p-two', duties: ['review'] }, { recordedBy: 'p-one', run })).toBeUndefined();
  });
});
