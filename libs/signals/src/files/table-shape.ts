import { cellsOf } from './cells.js';

/** Where the numbers of a text begin, and how they are parted. */
export interface TableShape {
  delimiter: 'comma' | 'semicolon' | 'tab';
  width: number;
  /** Index of the first line of data. */
  start: number;
  rows: string[][];
}

const SIGNS = { comma: ',', semicolon: ';', tab: '\t' } as const;
/** A number in any way of writing, a date or a time. */
const FIGURES = /^[+-]?[\d.,'’\u00a0\u2009\u202f:/T -]*\d[\d.,'’\u00a0\u2009\u202f:/TZ+ -]*(e[+-]?\d+)?$/i;

export function looksLikeFigures(cell: string): boolean {
  return FIGURES.test(cell.trim());
}

/**
 * The table of numbers with which these lines end: the longest run of lines up to the last that part into the same
 * number of cells, begin with figures and hold more figures than words. Undefined where there is none of two lines.
 * Of delimiters with runs of one length the one with more columns is meant: a decimal comma parts fewer rows evenly.
 */
export function tableShape(lines: readonly string[]): TableShape | undefined {
  let best: TableShape | undefined;
  for (const delimiter of ['semicolon', 'tab', 'comma'] as const) {
    const shape = runOf(lines, delimiter);
    if (!shape) continue;
    const further = shape.rows.length - (best?.rows.length ?? 0);
    if (!best || further > 0 || (further === 0 && shape.width > best.width && best.width === 1)) best = shape;
  }
  return best;
}

function runOf(lines: readonly string[], delimiter: TableShape['delimiter']): TableShape | undefined {
  const rows: string[][] = [];
  let width = 0;
  let start = lines.length;
  for (let index = lines.length - 1; index >= 0; index--) {
    const split = cellsOf(lines[index] as string, SIGNS[delimiter]);
    if ('code' in split) break;
    const { cells } = split;
    if (width === 0) width = cells.length;
    const figures = cells.filter(looksLikeFigures).length;
    if (width < 2 || cells.length !== width || !looksLikeFigures(cells[0] as string)) break;
    if (figures === 0 || figures * 3 < cells.filter((cell) => cell.trim() !== '').length) break;
    rows.unshift(cells);
    start = index;
  }
  return rows.length < 2 ? undefined : { delimiter, width, start, rows };
}
