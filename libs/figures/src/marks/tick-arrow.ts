import type { Ink, Mark } from '../scene.js';

const HALF = 3.6;
const LENGTH = 10;
const HEAD = 2.6;

export interface TickArrow {
  x: number;
  y: number;
  note?: string;
  /** "at least" where left out. */
  side?: 'at least' | 'at most';
  /** Half of the upright stroke, in points. */
  half?: number;
  ink?: Ink;
  width?: number;
  part?: string;
}

/** From the middle of the upright stroke to the tip of its arrow. */
export function tickArrowLength(half = HALF): number {
  return LENGTH * (half / HALF);
}

/** A value known from one side: a short upright stroke with an arrow to where the true value lies. */
export function tickArrow({
  x,
  y,
  note,
  side = 'at least',
  half = HALF,
  ink = 'ink',
  width = 0.9,
  part = side,
}: TickArrow): Mark[] {
  const stroke = { ink, width } as const;
  const towards = side === 'at least' ? 1 : -1;
  const tip = x + towards * tickArrowLength(half);
  const head = HEAD * (half / HALF);
  return [
    {
      mark: 'line',
      part,
      ...(note === undefined ? {} : { note }),
      points: [
        [x, y - half],
        [x, y + half],
      ],
      stroke,
    },
    {
      mark: 'line',
      points: [
        [x, y],
        [tip, y],
      ],
      stroke,
    },
    {
      mark: 'line',
      points: [
        [tip - towards * head, y - head],
        [tip, y],
        [tip - towards * head, y + head],
      ],
      stroke,
    },
  ];
}
