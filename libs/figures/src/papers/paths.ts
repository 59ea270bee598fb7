import { PALETTES, type Palette } from '../palette.js';
import type { AreaMark, DotMark, LineMark, Mark, Place, Scene, TextMark } from '../scene.js';

/** What a pen that knows SVG path data has to do, in this order. Lengths are points from the scene's upper left corner. */
export type DrawCommand = PathCommand | TextCommand;

export interface PathCommand {
  draw: 'path';
  /** SVG path data. */
  d: string;
  fill?: string;
  stroke?: { colour: string; width: number; dash?: readonly number[] };
}

export interface TextCommand {
  draw: 'text';
  text: string;
  x: number;
  y: number;
  size: number;
  anchor: 'start' | 'middle' | 'end';
  colour: string;
  strong: boolean;
}

/** The scene as path commands, for a document. */
export function sceneToPaths(scene: Scene, palette: Palette = PALETTES.print): DrawCommand[] {
  return scene.marks.map((mark) => markToCommand(mark, palette));
}

/** One mark as one command. */
export function markToCommand(mark: Mark, palette: Palette): DrawCommand {
  switch (mark.mark) {
    case 'line':
      return lineCommand(mark, palette);
    case 'area':
      return areaCommand(mark, palette);
    case 'dot':
      return dotCommand(mark, palette);
    case 'text':
      return textCommand(mark, palette);
  }
}

function lineCommand({ points, stroke }: LineMark, palette: Palette): PathCommand {
  return { draw: 'path', d: pathThrough(points), stroke: pen(stroke, palette) };
}

function areaCommand({ points, fill, stroke }: AreaMark, palette: Palette): PathCommand {
  const command: PathCommand = { draw: 'path', d: `${pathThrough(points)}Z`, fill: palette[fill] };
  return stroke ? { ...command, stroke: pen(stroke, palette) } : command;
}

function dotCommand({ at: [x, y], radius, form, ink }: DotMark, palette: Palette): PathCommand {
  const stroke = { colour: palette[ink], width: RING_WIDTH };
  // A ring's line lies inside its radius, so that ring and disc of one radius are equally large.
  const r = form === 'ring' ? radius - RING_WIDTH / 2 : radius;
  const d = `M${short(x - r)} ${short(y)}a${short(r)} ${short(r)} 0 1 0 ${short(2 * r)} 0a${short(r)} ${short(r)} 0 1 0 ${short(-2 * r)} 0Z`;
  return form === 'ring' ? { draw: 'path', d, fill: palette.paper, stroke } : { draw: 'path', d, fill: palette[ink] };
}

function textCommand({ text, at: [x, y], size, anchor, ink, strong = false }: TextMark, palette: Palette): TextCommand {
  return { draw: 'text', text, x: Number(short(x)), y: Number(short(y)), size, anchor, colour: palette[ink], strong };
}

const RING_WIDTH = 0.9;

function pen({ ink, width, dash }: LineMark['stroke'], palette: Palette) {
  return { colour: palette[ink], width, ...(dash ? { dash } : {}) };
}

function pathThrough(points: readonly Place[]): string {
  return points.map(([x, y], index) => `${index === 0 ? 'M' : 'L'}${short(x)} ${short(y)}`).join('');
}

/** A hundredth of a point is finer than any printer; the same scene always gives the same text. */
function short(length: number): string {
  const rounded = Math.round(length * 100) / 100;
  return String(rounded === 0 ? 0 : rounded);
}
