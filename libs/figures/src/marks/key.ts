import type { Mark, Place, Stroke } from '../scene.js';
import { fitted, textWidth } from '../text-width.js';
import { LABEL_TEXT } from './axis.js';
import { diamond } from './diamond.js';
import { specimenMark } from './specimen.js';
import { tickArrow } from './tick-arrow.js';
import { wedge } from './wedge.js';

/** A sign of the picture and what it means. */
export interface KeyItem {
  sign:
    | 'disc'
    | 'ring'
    | 'diamond'
    | 'dot with arrow'
    | 'tick with arrow'
    | 'arrow with tick'
    | 'bar'
    | 'wedge'
    | Stroke;
  text: string;
}

const SIGN = 15;
const BETWEEN = 14;
const ROW = 11;

/** What the signs mean, in as many rows as the width asks for. */
export function key(
  items: readonly KeyItem[],
  { left, right, y }: { left: number; right: number; y: number },
): { marks: Mark[]; height: number } {
  const marks: Mark[] = [];
  let [x, row] = [left, 0];
  for (const { sign, text: whole } of items) {
    const text = fitted(whole, LABEL_TEXT, right - left - SIGN - 4);
    const width = SIGN + 4 + textWidth(text, LABEL_TEXT);
    if (x > left && x + width > right) [x, row] = [left, row + 1];
    const base = y + row * ROW + LABEL_TEXT + 2;
    marks.push(...signMarks(sign, [x, base - LABEL_TEXT * 0.36]));
    marks.push({
      mark: 'text',
      part: 'key',
      text,
      at: [x + SIGN + 4, base],
      size: LABEL_TEXT,
      anchor: 'start',
      ink: 'ink',
    });
    x += width + BETWEEN;
  }
  return {
    marks: marks.map((mark) => ({ ...mark, part: 'key' })),
    height: items.length === 0 ? 0 : (row + 1) * ROW + 3,
  };
}

function signMarks(sign: KeyItem['sign'], [x, y]: Place): Mark[] {
  const scale = (value: number) => value;
  const middle = x + SIGN / 2;
  switch (sign) {
    case 'disc':
    case 'ring':
      return specimenMark({ value: { kind: 'exact', value: middle }, scale, y, radius: 2.6, open: sign === 'ring' });
    case 'dot with arrow':
      return specimenMark({ value: { kind: 'atLeast', value: x + 3 }, scale, y, radius: 2.2 });
    case 'tick with arrow':
      return tickArrow({ x: x + 2, y });
    case 'arrow with tick':
      return tickArrow({ x: x + SIGN - 2, y, side: 'at most' });
    case 'diamond':
      return [diamond([middle, y], 2.8)];
    case 'bar':
      return specimenMark({ value: { kind: 'between', lower: x, upper: x + SIGN }, scale, y, radius: 2.2 });
    case 'wedge':
      return [wedge({ tip: x, end: x + SIGN, y, height: 6 })];
    default:
      return [
        {
          mark: 'line',
          points: [
            [x, y],
            [x + SIGN, y],
          ],
          stroke: sign,
        },
      ];
  }
}
