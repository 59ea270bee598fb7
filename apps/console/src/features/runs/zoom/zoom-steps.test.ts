import { describe, expect, it } from 'vitest';
import { about, stepped, ZOOM_STEPS } from './zoom-steps.js';

const RECORD = { from: -1, to: 15 };

describe('steps of a zoom', () => {
  it('go closer and wider about the middle', () => {
    expect(stepped('closer', RECORD, RECORD)).toEqual({ from: 5, to: 9 });
    expect(stepped('wider', { from: 6.5, to: 7.5 }, RECORD)).toEqual({ from: 5, to: 9 });
  });

  it('go earlier and later by half of what is shown, and stop at the ends of the record', () => {
    expect(stepped('later', { from: 5, to: 9 }, RECORD)).toEqual({ from: 7, to: 11 });
    expect(stepped('later', { from: 10, to: 14 }, RECORD)).toEqual({ from: 11, to: 15 });
    expect(stepped('earlier', { from: 0, to: 4 }, RECORD)).toEqual({ from: -1, to: 3 });
  });

  it.each(ZOOM_STEPS)('never show anything beside the record: %s', (step) => {
    for (const shown of [RECORD, { from: -1, to: -0.5 }, { from: 14, to: 15 }, { from: 3, to: 12 }]) {
      const next = stepped(step, shown, RECORD);
      expect(next.from).toBeGreaterThanOrEqual(RECORD.from);
      expect(next.to).toBeLessThanOrEqual(RECORD.to);
      expect(next.to).toBeGreaterThan(next.from);
    }
  });

  it('show a moment in the middle where the record allows', () => {
    expect(about(7, 2, RECORD)).toEqual({ from: 6, to: 8 });
    expect(about(14.9, 2, RECORD)).toEqual({ from: 13, to: 15 });
    expect(about(7, 100, RECORD)).toEqual(RECORD);
  });
});
