import type { Stroke } from '../scene.js';

/** Series in the order a reader meets them: ink, petrol, then patterns; never more than four. */
const SERIES: readonly Stroke[] = [
  { ink: 'ink', width: 1 },
  { ink: 'petrol', width: 1 },
  { ink: 'ink', width: 1, dash: [4, 2] },
  { ink: 'petrol', width: 1, dash: [1.2, 1.8] },
];

/** The stroke of the series with this index, counted from 0. */
export function seriesStroke(index: number): Stroke {
  const stroke = SERIES[index];
  if (!stroke)
    throw new Error(`One panel of a figure shows at most ${SERIES.length} series. Spread them over several figures.`);
  return stroke;
}
