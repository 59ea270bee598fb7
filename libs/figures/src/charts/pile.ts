import type { CharacteristicValue } from '@breakbook/lab';
import { arrowLength } from '../marks/specimen.js';
import { dodge, type Extent } from './dodge.js';

/** Dots piled over an axis: how large, how far apart the levels, and on which level each lies. */
export interface Pile {
  radius: number;
  step: number;
  levels: number[];
  height: number;
}

const RADII = [3.2, 2.7, 2.2, 1.8, 1.4, 1.1];
const HIGHEST = 84;
const LOWEST = 30;

/** The largest dots whose pile stays low enough; a crowd of thousands overlaps rather than growing further. */
export function pileOf(values: readonly CharacteristicValue[], scale: (value: number) => number): Pile {
  const piles = RADII.map((radius) => {
    const levels = dodge(
      values.map((value) => extentOf(value, scale, radius)),
      0.5,
    );
    return { radius, levels, step: 2 * radius + 0.7, highest: levels.reduce((a, b) => Math.max(a, b), 0) };
  });
  const pile = piles.find(({ highest, step }) => (highest + 1) * step <= HIGHEST) ?? piles.at(-1);
  if (!pile) throw new Error('there is always a smallest radius');
  const { radius, levels, highest } = pile;
  const step = Math.min(pile.step, (HIGHEST - 2 * radius) / Math.max(1, highest));
  return { radius, levels, step, height: Math.max(LOWEST, highest * step + 2 * radius + 6) };
}

function extentOf(value: CharacteristicValue, scale: (value: number) => number, radius: number): Extent {
  switch (value.kind) {
    case 'exact':
      return { from: scale(value.value) - radius, to: scale(value.value) + radius };
    case 'atLeast':
      return { from: scale(value.value) - radius, to: scale(value.value) + arrowLength(radius) };
    case 'atMost':
      return { from: scale(value.value) - arrowLength(radius), to: scale(value.value) + radius };
    case 'between':
      return { from: scale(value.lower), to: scale(value.upper) };
  }
}
