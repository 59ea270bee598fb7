/** A label that wants to stand beside an upright stroke. */
export interface LabelWish {
  x: number;
  width: number;
}

export interface LabelPlace extends LabelWish {
  /** Left edge of the label. */
  from: number;
  /** Row it stands in; row 0 is the topmost. */
  row: number;
}

interface Frame {
  left: number;
  right: number;
  gap: number;
  /** From a stroke to its label. */
  beside: number;
}

/**
 * Rows for labels beside upright strokes that reach up to them: no label overlaps another or leaves the picture, and,
 * where that can be had, no stroke passes through a label. Each takes the first row with room, from the left or from
 * the right, whichever crosses less.
 */
export function labelRows(wishes: readonly LabelWish[], frame: Frame): LabelPlace[] {
  const fromLeft = wishes.map((wish, index) => ({ ...wish, index })).sort((a, b) => a.x - b.x || a.index - b.index);
  const [one, other] = [fromLeft, fromLeft.toReversed()].map((order) => place(order, frame));
  if (!one || !other) return [];
  return crossings(other) < crossings(one) ? other : one;
}

function place(order: readonly (LabelWish & { index: number })[], frame: Frame): LabelPlace[] {
  const placed: LabelPlace[] = [];
  const byWish: LabelPlace[] = [];
  for (const { index, ...wish } of order) {
    const free = candidates(wish, placed.length + 1, frame).filter((candidate) =>
      placed.every((other) => other.row !== candidate.row || apart(candidate, other, frame.gap)),
    );
    const best = free.find((candidate) =>
      placed.every((other) => !crossed(candidate, other) && !crossed(other, candidate)),
    );
    const found = best ?? free.at(-1);
    if (!found) throw new Error('the row below all labels is always free');
    placed.push(found);
    byWish[index] = found;
  }
  return byWish;
}

/** Row by row, to the right of the stroke and then to its left, where the picture has room. */
function candidates({ x, width }: LabelWish, rows: number, { left, right, beside }: Frame): LabelPlace[] {
  const sides = [x + beside, x - beside - width].filter((from) => from >= left && from + width <= right);
  const starts = sides.length > 0 ? sides : [Math.max(left, Math.min(x + beside, right - width))];
  return Array.from({ length: rows }, (_, row) => starts.map((from) => ({ x, width, from, row }))).flat();
}

function crossings(places: readonly LabelPlace[]): number {
  return places.flatMap((lower) => places.filter((upper) => crossed(lower, upper))).length;
}

function apart(a: LabelPlace, b: LabelPlace, gap: number): boolean {
  return a.from + a.width + gap <= b.from || b.from + b.width + gap <= a.from;
}

/** Does the stroke of `upper` pass through the label `lower`? */
function crossed(lower: LabelPlace, upper: LabelPlace): boolean {
  return upper.row < lower.row && upper.x > lower.from - 1 && upper.x < lower.from + lower.width + 1;
}
