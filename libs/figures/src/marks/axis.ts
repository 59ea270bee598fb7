import type { Mark, Place } from '../scene.js';
import { textWidth } from '../text-width.js';

export const TICK_TEXT = 7;
export const LABEL_TEXT = 7.5;
const TICK = 3.5;

export interface Axis {
  /** Data to points. */
  scale: (value: number) => number;
  ticks: readonly number[];
  format: (value: number) => string;
}

/** From the axis line to the foot of its numbers. */
export const NUMBERS_HEIGHT = TICK + TICK_TEXT + 1.5;
/** From the foot of the numbers to the foot of the title. */
export const TITLE_HEIGHT = LABEL_TEXT + 4;

/** A scale under the picture: its line, ticks and numbers. `quiet` is for a second scale under the first. */
export function bottomAxis(
  { scale, ticks, format }: Axis,
  { from, to, y, quiet = false }: { from: number; to: number; y: number; quiet?: boolean },
): Mark[] {
  const ink = quiet ? 'muted' : 'ink';
  const marks: Mark[] = [line('axis', [from, y], [to, y], { ink, width: quiet ? 0.5 : 0.8 })];
  for (const tick of ticks) {
    const text = format(tick);
    const half = textWidth(text, TICK_TEXT) / 2;
    // A number at the end of the scale is moved in rather than cut off.
    const x = Math.min(Math.max(scale(tick), from + half), to - half);
    marks.push(line('tick', [scale(tick), y], [scale(tick), y + TICK], { ink, width: 0.6 }));
    marks.push({ mark: 'text', text, at: [x, y + TICK + TICK_TEXT + 0.5], size: TICK_TEXT, anchor: 'middle', ink });
  }
  return marks;
}

/** What the scale measures, under its right end. */
export function bottomTitle(title: string, { to, y }: { to: number; y: number }): Mark {
  return { mark: 'text', text: title, at: [to, y + LABEL_TEXT + 1.5], size: LABEL_TEXT, anchor: 'end', ink: 'ink' };
}

/** A scale at the left: numbers and ticks, and faint lines across the picture. */
export function leftAxis(
  { scale, ticks, format }: Axis,
  { x, from, to, across }: { x: number; from: number; to: number; across: number },
): Mark[] {
  return [
    ...ticks.map((tick) => line('grid', [x, scale(tick)], [across, scale(tick)], { ink: 'faint', width: 0.5 })),
    line('axis', [x, from], [x, to], { ink: 'ink', width: 0.8 }),
    ...ticks.flatMap((tick): Mark[] => [
      line('tick', [x - TICK, scale(tick)], [x, scale(tick)], { ink: 'ink', width: 0.6 }),
      {
        mark: 'text',
        text: format(tick),
        at: [x - TICK - 2, scale(tick) + TICK_TEXT * 0.36],
        size: TICK_TEXT,
        anchor: 'end',
        ink: 'ink',
      },
    ]),
  ];
}

/** Width that the numbers of `leftAxis` take. */
export function leftAxisWidth({ ticks, format }: Pick<Axis, 'ticks' | 'format'>): number {
  return Math.max(0, ...ticks.map((tick) => textWidth(format(tick), TICK_TEXT))) + TICK + 2;
}

function line(part: string, from: Place, to: Place, stroke: { ink: 'ink' | 'muted' | 'faint'; width: number }): Mark {
  return { mark: 'line', part, points: [from, to], stroke };
}
