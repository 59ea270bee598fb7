import type { Mark } from '../scene.js';

/** The distance between two places on a line, as a drawing gives a dimension: a thin line with a tick at each end. */
export function distance({ from, to, y }: { from: number; to: number; y: number }): Mark[] {
  const ticks: Mark[] = [from, to].map((x) => ({
    mark: 'line',
    points: [
      [x, y - 2.5],
      [x, y + 2.5],
    ],
    stroke: { ink: 'petrol', width: 0.6 },
  }));
  return [
    {
      mark: 'line',
      part: 'gap',
      points: [
        [from, y],
        [to, y],
      ],
      stroke: { ink: 'petrol', width: 0.6 },
    },
    ...ticks,
  ];
}
