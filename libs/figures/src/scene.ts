/**
 * A chart as data: a size and a list of marks, in points (1/72 inch) from the upper left corner. Papers draw it
 * (`papers/`), charts make it (`charts/`); nothing in a scene is computed from test data but places.
 */
export interface Scene {
  width: number;
  height: number;
  /** What the picture is, in a few words. */
  title: string;
  /** What it shows, in sentences, for whoever cannot see it. */
  alt: string;
  /** What, how many, which method: printed under the picture. */
  caption: string;
  marks: Mark[];
}

/** Width of a figure on paper: half a column and the whole of it. */
export const FIGURE_WIDTH = { narrow: (80 / 25.4) * 72, wide: (170 / 25.4) * 72 } as const;

/** What a line or a filling means; a paper decides its colour. */
export type Ink =
  | 'ink'
  | 'petrol'
  | 'limit'
  | 'muted'
  | 'faint'
  | 'wash'
  | 'paper'
  | 'good'
  | 'caution'
  | 'bad'
  | 'open';

export interface Stroke {
  ink: Ink;
  width: number;
  /** Lengths of stroke and gap, in points. */
  dash?: readonly number[];
}

export type Place = readonly [x: number, y: number];

interface Common {
  /** What the mark stands for, such as "specimen" or "limit". */
  part?: string;
  /** Told when a reader points at the mark. */
  note?: string;
}

export interface LineMark extends Common {
  mark: 'line';
  points: readonly Place[];
  stroke: Stroke;
}

export interface AreaMark extends Common {
  mark: 'area';
  /** Corners of a closed shape. */
  points: readonly Place[];
  fill: Ink;
  stroke?: Stroke;
}

export interface DotMark extends Common {
  mark: 'dot';
  at: Place;
  radius: number;
  /** A filled dot, or a ring through which the paper shows. */
  form: 'disc' | 'ring';
  ink: Ink;
}

export interface TextMark extends Common {
  mark: 'text';
  text: string;
  /** Where the base line begins, has its middle or ends, as `anchor` says. */
  at: Place;
  size: number;
  anchor: 'start' | 'middle' | 'end';
  ink: Ink;
  strong?: boolean;
}

export type Mark = LineMark | AreaMark | DotMark | TextMark;
