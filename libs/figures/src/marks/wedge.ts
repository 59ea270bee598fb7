import type { Mark } from '../scene.js';

/** A lower bound: a wedge whose tip is the bound and whose blunt end is the estimate it was drawn back from. */
export function wedge(at: { tip: number; end: number; y: number; height: number; note?: string }): Mark {
  const { tip, end, y, height, note } = at;
  return {
    mark: 'area',
    part: 'bound',
    points: [
      [tip, y],
      [end, y - height / 2],
      [end, y + height / 2],
    ],
    fill: 'petrol',
    ...(note === undefined ? {} : { note }),
  };
}
