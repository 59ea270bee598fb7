import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Paper } from './paper.js';
import { layOut, type Pen, type Piece } from './pieces.js';

const paper: Paper = { name: 'A4', width: 600, height: 840, left: 50, right: 550, top: 50, bottom: 250 };

interface Drawn {
  index: number;
  page: number;
  y: number;
  repeatedHead: boolean;
}

/** Lays pieces out on pages that only count themselves. */
function laidOut(pieces: readonly Pick<Piece, 'height' | 'above' | 'keep'>[], head?: number): Drawn[] {
  let page = 0;
  let headOn: number | undefined;
  const drawn: Drawn[] = [];
  const doc = { addPage: () => page++ } as unknown as Pen['doc'];
  layOut(
    pieces.map((piece, index) => ({
      ...piece,
      draw: (_: Pen, y: number) => drawn.push({ index, page, y, repeatedHead: headOn === page }),
      ...(head === undefined ? {} : { repeated: { height: head, draw: () => (headOn = page) } }),
    })),
    { doc, paper, section: {} as Pen['section'] },
    paper.top,
  );
  return drawn;
}

const piece = fc.record({
  height: fc.integer({ min: 1, max: 60 }),
  above: fc.integer({ min: 0, max: 15 }),
  keep: fc.boolean(),
});

describe('layOut', () => {
  it('draws every piece once, in order, and none across the end of a page', () => {
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 80 }), (pieces) => {
        const drawn = laidOut(pieces);
        expect(drawn.map(({ index }) => index)).toEqual(pieces.map((_, index) => index));
        for (const { index, y } of drawn) {
          expect(y).toBeGreaterThanOrEqual(paper.top);
          expect(y + (pieces[index]?.height ?? 0)).toBeLessThanOrEqual(paper.bottom);
        }
        for (const [at, { index, page, y }] of drawn.entries()) {
          const before = drawn[at - 1];
          if (before?.page === page) expect(y).toBeGreaterThanOrEqual(before.y + (pieces[index - 1]?.height ?? 0));
        }
      }),
    );
  });

  it('leaves no piece that must stay with the next behind, unless the group is taller than a page', () => {
    // At most two kept pieces in a row, so that every group fits on a page of 200 points.
    const short = fc
      .array(piece, { maxLength: 80 })
      .map((pieces) =>
        pieces.map((one, index) => ({ ...one, keep: one.keep && index % 3 !== 2 && index < pieces.length - 1 })),
      );
    fc.assert(
      fc.property(short, (pieces) => {
        const drawn = laidOut(pieces);
        for (const [at, { index, page }] of drawn.entries())
          if (pieces[index]?.keep) expect(drawn[at + 1]?.page).toBe(page);
      }),
    );
  });

  it('parts a group that is taller than a page rather than losing it', () => {
    const drawn = laidOut(Array.from({ length: 9 }, () => ({ height: 50, above: 0, keep: true })));
    expect(drawn.map(({ page }) => page)).toEqual([0, 0, 0, 0, 1, 1, 1, 1, 2]);
  });

  it('draws the head again on each further page of a table', () => {
    const drawn = laidOut(
      Array.from({ length: 12 }, () => ({ height: 40, above: 0 })),
      20,
    );
    const firstOfPage = drawn.filter(({ page }, at) => drawn[at - 1]?.page !== page);
    expect(firstOfPage.length).toBeGreaterThan(2);
    for (const { y, repeatedHead } of firstOfPage) {
      expect(repeatedHead).toBe(true);
      expect(y).toBe(paper.top + 20);
    }
  });

  it('gives up the room above a piece at the top of a page', () => {
    const drawn = laidOut([
      { height: 150, above: 30 },
      { height: 100, above: 30 },
    ]);
    expect(drawn.map(({ y }) => y)).toEqual([paper.top, paper.top]);
  });
});
