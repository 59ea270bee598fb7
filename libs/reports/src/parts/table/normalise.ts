import type { Outcome } from '@breakbook/figures';
import type { Cell, Table } from '../blocks.js';

/** A table without guesswork: every row as long as the head, every cell in one form. */
export interface NormalTable {
  title?: string;
  columns: { title: string; align: 'left' | 'number' }[];
  rows: NormalCell[][];
}

export interface NormalCell {
  text: string;
  under: string;
  strong: boolean;
  sign?: Outcome;
}

/** A table with no row says so in its first cell. */
export function normalise({ title, columns, rows, empty }: Table): NormalTable {
  const uneven = rows.findIndex((row) => row.length !== columns.length);
  if (uneven >= 0)
    throw new Error(
      `Row ${uneven + 1} of table "${title ?? columns[0]?.title}" has ${rows[uneven]?.length} cells for ${columns.length} columns.`,
    );
  const shown = rows.length > 0 ? rows : [columns.map((_, index) => (index === 0 ? empty : ''))];
  return {
    ...(title === undefined ? {} : { title }),
    columns: columns.map(({ title: name, align = 'left' }) => ({ title: name, align })),
    rows: shown.map((row) => row.map(normalCell)),
  };
}

function normalCell(cell: Cell): NormalCell {
  if (typeof cell === 'string') return { text: cell, under: '', strong: false };
  const { text, under = '', strong = false, sign } = cell;
  return { text, under, strong, ...(sign ? { sign } : {}) };
}
