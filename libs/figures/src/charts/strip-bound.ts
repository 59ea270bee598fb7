import { LABEL_TEXT } from '../marks/axis.js';
import { distance } from '../marks/distance.js';
import { patch } from '../marks/patch.js';
import { wedge } from '../marks/wedge.js';
import type { Mark } from '../scene.js';
import { textWidth } from '../text-width.js';

export interface BoundPlaces {
  tip: number;
  /** Blunt end of the wedge. */
  end: number;
  /** Place of the limit the gap is measured to. */
  limit?: number;
  y: number;
  width: number;
  /** Places of all limit strokes, which no words should stand on. */
  strokes: readonly number[];
}

/** What stands at a bound, in its full wording and in a shorter one for where room is scarce. */
export interface BoundWords {
  bound: { full: string; short: string };
  gap?: { full: string; short: string };
}

/** How far below the wedge its dimension runs where the two would lie on one another. */
const UNDER = 7;

/** A bound in its lane: the wedge, the gap to its limit as a dimension, and both numbers where no stroke crosses them. */
export function boundMarks(at: BoundPlaces, { bound, gap }: BoundWords): Mark[] {
  const { tip, end, limit, y } = at;
  const mark = wedge({ tip, end, y, height: 8, note: bound.full });
  if (gap === undefined || limit === undefined) return [mark, ...beside(at, [bound.full, bound.short])];

  // Below its limit a bound's wedge lies in the gap.
  const inGap = Math.max(Math.min(tip, end), Math.min(tip, limit)) < Math.min(Math.max(tip, end), Math.max(tip, limit));
  const dimension = limit === tip ? [] : distance({ from: limit, to: tip, y: inGap ? y + UNDER : y });
  const inside = inGap ? undefined : within(at, limit, [gap.full, gap.short]);
  if (inside) return [mark, ...dimension, inside, ...beside(at, [bound.full, bound.short])];
  const words = [`${gap.full}; ${bound.full}`, `${gap.short}; ${bound.full}`, `${gap.short}; ${bound.short}`];
  return [mark, ...dimension, ...beside(at, words)];
}

/** The gap over its dimension line, if one of the wordings fits. */
function within({ tip, y, strokes }: BoundPlaces, limit: number, wordings: readonly string[]): Mark | undefined {
  const [from, to] = [Math.min(limit, tip) + 2, Math.max(limit, tip) - 2];
  for (const text of wordings) {
    const size = textWidth(text, LABEL_TEXT, true);
    const middle = (from + to - size) / 2;
    const free = leftEdges(from, to, size)
      .sort((a, b) => Math.abs(a - middle) - Math.abs(b - middle))
      .find((x) => clear(x, size, strokes));
    if (free !== undefined) return label(text, free, y - 3);
  }
  return undefined;
}

/** The bound beside its wedge: at the blunt end if one of the wordings fits, else on the other side, else over a patch of paper. */
function beside({ tip, end, limit = tip, y, width, strokes }: BoundPlaces, wordings: readonly string[]): Mark[] {
  const right = Math.max(tip, end, limit) + 5;
  const left = Math.min(tip, end, limit) - 5;
  for (const text of wordings) {
    const size = textWidth(text, LABEL_TEXT, true);
    const free = [...leftEdges(right, width, size), ...leftEdges(0, left, size).reverse()].find((x) =>
      clear(x, size, strokes),
    );
    if (free !== undefined) return [label(text, free, y + LABEL_TEXT * 0.36)];
  }
  const text = wordings.at(-1) ?? '';
  const x = Math.max(0, Math.min(right, width - textWidth(text, LABEL_TEXT, true)));
  const base = y + LABEL_TEXT * 0.36;
  return [patch(text, { x, y: base, strong: true }), label(text, x, base)];
}

function label(text: string, x: number, y: number): Mark {
  return {
    mark: 'text',
    part: 'bound label',
    text,
    at: [x, y],
    size: LABEL_TEXT,
    anchor: 'start',
    ink: 'petrol',
    strong: true,
  };
}

const TRIALS = 24;

/** Where a text between two places could begin, from left to right. */
function leftEdges(from: number, to: number, size: number): number[] {
  const room = to - from - size;
  if (room < 0) return [];
  return Array.from({ length: TRIALS + 1 }, (_, index) => from + (room * index) / TRIALS);
}

function clear(from: number, size: number, strokes: readonly number[]): boolean {
  return strokes.every((x) => x < from - 3 || x > from + size + 3);
}
