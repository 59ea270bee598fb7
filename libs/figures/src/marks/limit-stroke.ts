import type { Mark } from '../scene.js';

export interface LimitStroke {
  x: number;
  /** From the axis up. */
  bottom: number;
  top: number;
  external: boolean;
  /** The side on which a value does not conform. */
  forbidden: 'left' | 'right';
  note?: string;
}

/**
 * A limit as an upright stroke with short slanted strokes on the side a value must not lie on, as a drawing marks
 * solid ground. External: strong, full height, on a foot. Internal: thin, half height.
 */
export function limitStroke({ x, bottom, top, external, forbidden, note }: LimitStroke): Mark[] {
  const height = external ? bottom - top : (bottom - top) / 2;
  const width = external ? 1.8 : 1.1;
  const side = forbidden === 'left' ? -1 : 1;
  const common = { part: external ? 'external limit' : 'internal limit', ...(note === undefined ? {} : { note }) };
  const marks: Mark[] = [
    {
      mark: 'line',
      ...common,
      points: [
        [x, bottom],
        [x, bottom - height],
      ],
      stroke: { ink: 'limit', width },
    },
  ];
  for (let y = bottom - 5; y > bottom - height + 1; y -= 5)
    marks.push({
      mark: 'line',
      points: [
        [x, y],
        [x + side * 3.2, y + 3.2],
      ],
      stroke: { ink: 'limit', width: 0.6 },
    });
  if (external)
    marks.push({
      mark: 'line',
      part: 'foot',
      points: [
        [x - 5, bottom],
        [x + 5, bottom],
      ],
      stroke: { ink: 'limit', width: 2.4 },
    });
  return marks;
}
