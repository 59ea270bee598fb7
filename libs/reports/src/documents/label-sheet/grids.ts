import type { LabelGridName } from '@breakbook/lab';
import type { Paper } from '../../parts/paper.js';

/** How labels lie on a sheet. Lengths in millimetres. */
export interface LabelGrid {
  paper: Paper['name'];
  columns: number;
  rows: number;
  width: number;
  height: number;
  /** From the edge of the sheet to the first label. */
  left: number;
  top: number;
  /** From the left edge of a label to that of the next, and from upper edge to upper edge. */
  across: number;
  down: number;
}

function grid(
  paper: Paper['name'],
  [columns, rows]: [number, number],
  [width, height]: [number, number],
  [left, top]: [number, number],
  [across, down]: [number, number] = [width, height],
): LabelGrid {
  return { paper, columns, rows, width, height, left, top, across, down };
}

/** Sheets of labels as they are sold in general, by the size of one label (common practice, no source). */
export const LABEL_GRIDS = {
  'A4, 24 of 70 × 37 mm': grid('A4', [3, 8], [70, 37], [0, 0.5]),
  'A4, 21 of 70 × 42.3 mm': grid('A4', [3, 7], [70, 42.3], [0, 0.4]),
  'A4, 10 of 105 × 57 mm': grid('A4', [2, 5], [105, 57], [0, 6]),
  'A4, 40 of 52.5 × 29.7 mm': grid('A4', [4, 10], [52.5, 29.7], [0, 0]),
  'Letter, 30 of 66.7 × 25.4 mm': grid('Letter', [3, 10], [66.7, 25.4], [4.8, 12.7], [69.85, 25.4]),
  'Letter, 20 of 101.6 × 25.4 mm': grid('Letter', [2, 10], [101.6, 25.4], [4, 12.7], [106.4, 25.4]),
  'Letter, 14 of 101.6 × 33.9 mm': grid('Letter', [2, 7], [101.6, 33.9], [4, 21.2], [106.4, 33.9]),
  'Letter, 10 of 101.6 × 50.8 mm': grid('Letter', [2, 5], [101.6, 50.8], [4, 12.7], [106.4, 50.8]),
} as const satisfies Record<LabelGridName, LabelGrid>;
