import type { Mark, Stroke } from '../scene.js';

/** Long and short strokes: no limit is drawn so. */
export const PREDICTION: Stroke = { ink: 'petrol', width: 1.3, dash: [6, 2, 1.5, 2] };

const CORNER = 4;

/**
 * A bound that future units keep within: an upright broken stroke with a short corner at each end, which points to the side
 * on which they lie.
 */
export function predictionStroke(at: {
  x: number;
  top: number;
  bottom: number;
  side: 'lower' | 'upper';
  note?: string;
}): Mark[] {
  const { x, top, bottom, side, note } = at;
  const inwards = x + (side === 'lower' ? CORNER : -CORNER);
  return [
    {
      mark: 'line',
      part: `${side} prediction bound`,
      ...(note === undefined ? {} : { note }),
      points: [
        [x, bottom],
        [x, top],
      ],
      stroke: PREDICTION,
    },
    ...[top, bottom].map(
      (y): Mark => ({
        mark: 'line',
        part: 'corner',
        points: [
          [x, y],
          [inwards, y],
        ],
        stroke: { ink: 'petrol', width: 1.3 },
      }),
    ),
  ];
}
