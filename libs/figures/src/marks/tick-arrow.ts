import { type Mark } from '../scene.js';

const HALF = 3.6;
const LENGTH = 10;
const HEAD = 2.6;

/** A value that is "at least": a short upright stroke with an arrow to where the true value lies. */
export function tickArrow({ x, y, note }: { x: number; y: number; note?: string }): Mark[] {
  const stroke = { ink: 'ink', width: 0.9 } as const;
  return [
    {
      mark: 'line',
      part: 'at least',
      ...(note === undefined ? {} : { note }),
      points: [
        [x, y - HALF],
        [x, y + HALF],
      ],
      stroke,
    },
    {
      mark: 'line',
      points: [
        [x, y],
        [x + LENGTH, y],
      ],
      stroke,
    },
    {
      mark: 'line',
      points: [
        [x + LENGTH - HEAD, y - HEAD],
        [x + LENGTH, y],
        [x + LENGTH - HEAD, y + HEAD],
      ],
      stroke,
    },
  ];
}
