import { describe, expect, it } from 'vitest';
import type { LotAnswer } from '../../client/answers.js';
import { lotAnswer } from './invented-answer.fixture.js';
import { whatNext } from './what-next.js';

const decided = (answer: LotAnswer): LotAnswer => ({
  ...answer,
  bundle: {
    ...answer.bundle,
    runs: answer.bundle.runs.map((run) => ({
      ...run,
      validity: { validity: 'valid', person: 'p-two', at: '2026-03-02T09:00:00Z' },
    })),
  },
});

describe('what happens next with a lot', () => {
  it('asks for the validity of open runs, from someone who did not record them', () => {
    const { what, who } = whatNext(lotAnswer);
    expect(what).toContain('validity of run 3');
    expect(who.map(({ person }) => person)).toEqual(['p-two']);
  });

  it('asks for the runs still planned', () => {
    expect(whatNext(decided(lotAnswer)).what).toContain('1 more valid run on plan line A');
  });

  it('names only deciders who neither recorded nor reviewed', () => {
    const complete = decided(lotAnswer);
    const lines = complete.lot.lines.map((line) => ({ ...line, counts: { ...line.counts, inClaim: 3 } }));
    const { who } = whatNext({ ...complete, lot: { ...complete.lot, lines } });
    expect(who.map(({ person }) => person)).toEqual(['p-three']);
  });

  it('puts refused files first', () => {
    const refusals = [{ run: '2', problems: [] }];
    expect(whatNext({ ...lotAnswer, refusals }).what).toContain('refused file of run 2');
  });
});
