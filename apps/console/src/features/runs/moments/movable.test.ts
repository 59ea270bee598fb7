import type { TraceEvent } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import { movableAt, movableOf, standing } from './movable.js';

const event = (name: string, time: number, over: Partial<TraceEvent> = {}): TraceEvent => ({
  name,
  time,
  value: 1,
  channel: 'c',
  ...over,
});
const strikes = {
  passages: [1, 2].map((passage) => ({
    passage,
    kind: 'strike' as const,
    title: `strike ${passage}`,
    startedAt: '2026-03-02T09:00:00Z',
  })),
};

describe('the moments that can be moved', () => {
  it('are the failure of a burst, with how the pressure was lost', () => {
    const [failure] = movableOf('burst', {}, [event('peak', 12), event('failure', 12.31)]);
    expect(failure).toMatchObject({ instant: 'failure', at: 12.31, loss: 'burst', word: 'failure' });
    expect(movableOf('burst', {}, [event('failure', 9, { loss: 'leak' })])).toMatchObject([{ loss: 'leak' }]);
    expect(movableOf('burst', {}, [event('peak', 12)])).toMatchObject([{ at: undefined, loss: undefined }]);
  });

  it('are both ends of every contact, each by its passage', () => {
    const all = movableOf('impact', strikes, [event('contact begins', 0.001, { passage: 2 })]);
    expect(all.map(({ word }) => word)).toEqual([
      'contact begins, passage 1',
      'contact ends, passage 1',
      'contact begins, passage 2',
      'contact ends, passage 2',
    ]);
    expect(all.map(({ at }) => at)).toEqual([undefined, undefined, 0.001, undefined]);
  });

  it('are none of a run without a record', () => {
    expect(movableOf('table', {}, [])).toEqual([]);
  });

  it('say where they stand', () => {
    const [failure] = movableOf('burst', {}, [event('failure', 12.310000000000002)]);
    expect(failure && standing(failure)).toBe('The checks propose 12.31 s (burst).');
    expect(standing({ at: undefined, loss: undefined, moved: undefined })).toContain('shows none');
    expect(standing({ at: 9, loss: 'leak', moved: { by: 'p-one' } })).toBe('A person put it at 9 s (leak).');
  });

  it('follow the trace to the passage that is looked at', () => {
    const all = movableOf('impact', strikes, []);
    const [, ends] = all;
    if (!ends) throw new Error('a contact has an end');
    expect(movableAt(all, ends, 2)).toMatchObject({ instant: 'contact ends', passage: 2 });
    expect(movableAt(all, ends, undefined)).toBe(ends);
  });
});
