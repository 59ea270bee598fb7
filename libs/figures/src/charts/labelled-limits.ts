import { LABEL_TEXT } from '../marks/axis.js';
import { limitStroke } from '../marks/limit-stroke.js';
import { patch } from '../marks/patch.js';
import { predictionStroke } from '../marks/prediction-stroke.js';
import type { Mark, Stroke } from '../scene.js';
import { textWidth } from '../text-width.js';
import { type LabelPlace, labelRows } from './label-rows.js';

export interface LabelledLimit {
  /** What stands beside it: its name and value. */
  text: string;
  value: number;
  external: boolean;
  /** The side on which a value conforms. */
  conforms: 'at or above' | 'at or below';
}

/** A bound that future units keep within, with what stands beside it. */
export interface LabelledBound {
  text: string;
  value: number;
  predicted: 'lower' | 'upper';
}

const ROW = 11;

/** Limits and bounds as strokes with their words above them, in as many rows as they need. */
export function labelledLimits(
  limits: readonly (LabelledLimit | LabelledBound)[],
  { scale, left, right }: { scale: (value: number) => number; left: number; right: number },
): { height: number; marks: (at: { y: number; top: number; bottom: number }) => Mark[] } {
  const places = labelRows(
    limits.map(({ value, text }) => ({ x: scale(value), width: textWidth(text, LABEL_TEXT) })),
    { left, right, gap: 6, beside: 4 },
  );
  const placed = limits.flatMap((limit, index) => {
    const place = places[index];
    return place ? [{ limit, place, head: place.row * ROW + 1.5 }] : [];
  });
  return {
    height: Math.max(0, ...places.map(({ row }) => row + 1)) * ROW,
    // All strokes before all words, so that a word which one must cross can be cleared of it.
    marks: ({ y, top, bottom }) => [
      ...placed.flatMap(({ limit, place, head }) =>
        stroke(limit, place.x, { head: y + head + (straddles(place) ? ROW - 1.5 : 0), top, bottom }),
      ),
      ...placed.flatMap(({ limit, place, head }) => [
        ...(places.some((other) => crosses(other, place))
          ? [patch(limit.text, { x: place.from, y: y + head + LABEL_TEXT - 1 })]
          : []),
        words(limit.text, place, y + head),
      ]),
    ],
  };
}

function stroke(
  limit: LabelledLimit | LabelledBound,
  x: number,
  { head, top, bottom }: { head: number; top: number; bottom: number },
): Mark[] {
  const leader = (to: number, stroke: Stroke): Mark => ({
    mark: 'line',
    part: 'leader',
    points: [
      [x, head],
      [x, to],
    ],
    stroke,
  });
  if ('predicted' in limit)
    return [
      leader(top, { ink: 'petrol', width: 0.6 }),
      ...predictionStroke({ x, top, bottom, side: limit.predicted, note: limit.text }),
    ];
  const { text, external, conforms } = limit;
  return [
    external
      ? leader(top, { ink: 'limit', width: 0.6 })
      : leader((top + bottom) / 2, { ink: 'muted', width: 0.6, dash: [1.2, 1.8] }),
    ...limitStroke({ x, bottom, top, external, forbidden: conforms === 'at or above' ? 'left' : 'right', note: text }),
  ];
}

/** Words that found no room beside their own stroke stand over it: it then begins under them. */
function straddles({ x, from, width }: LabelPlace): boolean {
  return x > from && x < from + width;
}

function crosses(upper: LabelPlace, lower: LabelPlace): boolean {
  return upper.row < lower.row && upper.x > lower.from - 1 && upper.x < lower.from + lower.width + 1;
}

function words(text: string, { from }: LabelPlace, head: number): Mark {
  return {
    mark: 'text',
    part: 'limit label',
    text,
    at: [from, head + LABEL_TEXT - 1],
    size: LABEL_TEXT,
    anchor: 'start',
    ink: 'ink',
  };
}
