import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dodge } from './dodge.js';
import { labelRows } from './label-rows.js';

const frame = { left: 0, right: 480, gap: 6, beside: 4 };

describe('labelRows', () => {
  it('never lets two labels overlap or leave the picture', () => {
    const wish = fc.record({
      x: fc.double({ min: 0, max: 480, noNaN: true }),
      width: fc.integer({ min: 5, max: 300 }),
    });
    fc.assert(
      fc.property(fc.array(wish, { maxLength: 12 }), (wishes) => {
        const places = labelRows(wishes, frame);
        expect(places).toHaveLength(wishes.length);
        for (const [i, a] of places.entries()) {
          expect(a.from).toBeGreaterThanOrEqual(0);
          expect(a.from + a.width).toBeLessThanOrEqual(480);
          for (const b of places.slice(i + 1))
            expect(a.row !== b.row || a.from + a.width + 6 <= b.from || b.from + b.width + 6 <= a.from).toBe(true);
        }
      }),
      { numRuns: 300 },
    );
  });

  it('keeps the stroke of one label out of the words of another', () => {
    const places = labelRows(
      [
        { x: 180, width: 120 },
        { x: 330, width: 110 },
        { x: 400, width: 120 },
      ],
      frame,
    );
    for (const lower of places)
      for (const upper of places)
        if (upper.row < lower.row) expect(upper.x > lower.from && upper.x < lower.from + lower.width).toBe(false);
  });
});

describe('dodge', () => {
  it('keeps marks on one level apart, whatever their extents', () => {
    const extent = fc
      .tuple(fc.double({ min: 0, max: 400, noNaN: true }), fc.double({ min: 0.1, max: 30, noNaN: true }))
      .map(([from, size]) => ({ from, to: from + size }));
    fc.assert(
      fc.property(fc.array(extent, { maxLength: 60 }), (extents) => {
        const levels = dodge(extents, 0.5);
        for (const [i, a] of extents.entries())
          for (const [j, b] of extents.entries())
            if (i < j && levels[i] === levels[j]) expect(a.to + 0.5 <= b.from || b.to + 0.5 <= a.from).toBe(true);
      }),
      { numRuns: 300 },
    );
  });

  it('leaves marks that do not touch on the axis', () => {
    expect(
      dodge(
        [
          { from: 20, to: 26 },
          { from: 0, to: 6 },
          { from: 10, to: 16 },
        ],
        0.5,
      ),
    ).toEqual([0, 0, 0]);
  });
});
