import type { Mark } from '../scene.js';
import { textWidth } from '../text-width.js';
import { LABEL_TEXT } from './axis.js';

/** A piece of paper under words that a stroke would pass through; `y` is their base line. */
export function patch(text: string, { x, y, strong = false }: { x: number; y: number; strong?: boolean }): Mark {
  const right = x + textWidth(text, LABEL_TEXT, strong) + 1.5;
  return {
    mark: 'area',
    part: 'patch',
    points: [
      [x - 1.5, y - LABEL_TEXT],
      [right, y - LABEL_TEXT],
      [right, y + 2],
      [x - 1.5, y + 2],
    ],
    fill: 'paper',
  };
}
