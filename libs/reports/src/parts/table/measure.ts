import type { Outcome } from '@breakbook/figures';
import { SIGN_SPACE } from '../sign.js';
import { linesOf, printable, widthOf } from '../text.js';
import { type Style, TYPE } from '../type.js';
import type { NormalCell, NormalTable } from './normalise.js';

/** A table with its column widths, and each cell in lines. Lengths in points. */
export interface MeasuredTable {
  title?: string;
  columns: MeasuredColumn[];
  head: { lines: string[][]; height: number };
  rows: MeasuredRow[];
}

export interface MeasuredColumn {
  x: number;
  width: number;
  align: 'left' | 'number';
  /** Where the whole part of a number ends, from the left edge of the column. */
  decimal: number;
}

export interface MeasuredRow {
  cells: MeasuredCell[];
  height: number;
  /** Above and below what stands in it. */
  padding: number;
  /** The upper part of a row too tall for any page: no line is drawn under it. */
  continues?: true;
}

export interface MeasuredCell {
  lines: { text: string; style: Style; indent: number }[];
  sign?: Outcome;
}

export const GUTTER = 9;
/** Above and below what stands in a row. */
export const ROW_PADDING = { usual: 3.2, compact: 1.8 };
const WIDEST_GAP = 40;
const HEAD_PADDING = 3;
/** No column asks for more than this before others have what they need. */
const WIDEST = 150;

/** Widths from the words in the cells: all on one line where there is room, else no narrower than the longest word. */
export function measure(
  doc: PDFKit.PDFDocument,
  table: NormalTable,
  width: number,
  padding = ROW_PADDING.usual,
): MeasuredTable {
  const wishes = table.columns.map((column, index) => {
    const cells = table.rows.map((row) => row[index]).filter((cell) => cell !== undefined);
    return columnWish(doc, column, cells);
  });
  const widths = distribute(wishes, width - GUTTER * (wishes.length - 1));
  const columns = wishes.map(({ align, whole, part }, index): MeasuredColumn => {
    const own = widths[index] ?? 0;
    const x = widths.slice(0, index).reduce((sum, one) => sum + one + GUTTER, 0);
    // Numbers stand at the left of their column, under the title, unless the title is wider.
    return { x, width: own, align, decimal: Math.min(own - part, whole) };
  });
  const head = table.columns.map(({ title }, index) => linesOf(doc, title, TYPE.columnTitle, widths[index] ?? 0));
  return {
    ...(table.title === undefined ? {} : { title: table.title }),
    columns,
    head: { lines: head, height: tallest(head) * TYPE.columnTitle.leading + 2 * HEAD_PADDING },
    rows: table.rows.map((row) => measureRow(doc, row, widths, padding)),
  };
}

/** A row in parts no taller than a page, for the rare cell that is longer than one. */
export function parted(row: MeasuredRow, tallestPart: number): MeasuredRow[] {
  if (row.height <= tallestPart) return [row];
  const count = Math.max(1, Math.floor((tallestPart - 2 * row.padding) / TYPE.cell.leading));
  const lines = Math.max(...row.cells.map((cell) => cell.lines.length));
  return Array.from({ length: Math.ceil(lines / count) }, (_, part): MeasuredRow => {
    const cells = row.cells.map(({ sign, lines: all }) => ({
      lines: all.slice(part * count, (part + 1) * count),
      ...(sign && part === 0 ? { sign } : {}),
    }));
    const { padding } = row;
    const height = heightOf(cells, padding);
    return (part + 1) * count < lines ? { cells, height, padding, continues: true } : { cells, height, padding };
  });
}

interface ColumnWish {
  align: 'left' | 'number';
  least: number;
  natural: number;
  /** Widest whole part and widest rest of its numbers. */
  whole: number;
  part: number;
}

function columnWish(
  doc: PDFKit.PDFDocument,
  { title, align }: NormalTable['columns'][number],
  cells: readonly NormalCell[],
): ColumnWish {
  const wish: ColumnWish = { align, least: 0, natural: 0, whole: 0, part: 0 };
  const ask = (text: string, style: Style, indent: number, breaks: boolean) => {
    const words = printable(doc, text, style);
    const lines = words.split('\n').map((line) => widthOf(doc, line, style) + indent);
    const longest = breaks ? words.split(/[ \n]/).map((word) => widthOf(doc, word, style) + indent) : lines;
    wish.natural = Math.max(wish.natural, ...lines);
    wish.least = Math.max(wish.least, ...longest);
  };
  ask(title, TYPE.columnTitle, 0, true);
  for (const cell of cells) {
    const style = styleOf(cell);
    const indent = cell.sign ? SIGN_SPACE : 0;
    // Words in a column of numbers, such as "none stated", move no number.
    if (align === 'left' || !/\d/.test(cell.text)) ask(cell.text, style, indent, true);
    else {
      const [whole, part] = splitNumber(printable(doc, cell.text, style));
      wish.whole = Math.max(wish.whole, widthOf(doc, whole, style));
      wish.part = Math.max(wish.part, widthOf(doc, part, style));
    }
    ask(cell.under, TYPE.underCell, indent, true);
  }
  const number = wish.whole + wish.part;
  return {
    ...wish,
    natural: Math.max(wish.natural, number),
    // A very long word gives way: it is cut between letters.
    least: Math.max(number, Math.min(wish.least, WIDEST)),
  };
}

/**
 * What each column needs; then the rest, first to columns that want little, so that few cells have to break. Where it
 * does not reach, a column that wants four times as much gets twice as much.
 */
function distribute(wishes: readonly ColumnWish[], available: number): number[] {
  const widths = wishes.map(({ least }) => least);
  const needed = total(widths);
  if (needed >= available) return widths.map((width) => (width * available) / needed);

  let rest = available - needed;
  const wanting = wishes
    .map(({ natural, least }, index) => ({ index, more: natural - least }))
    .sort((a, b) => a.more - b.more || a.index - b.index);
  for (const [place, { index, more }] of wanting.entries()) {
    const weights = wanting.slice(place).map((other) => Math.sqrt(other.more));
    const given = more === 0 ? 0 : Math.min(more, (rest * Math.sqrt(more)) / total(weights));
    widths[index] = (widths[index] ?? 0) + given;
    rest -= given;
  }
  // Room nobody needs goes between the columns, but not so much that the eye loses the row.
  const each = Math.min(rest / widths.length, WIDEST_GAP);
  return widths.map((width) => width + each);
}

function total(lengths: readonly number[]): number {
  return lengths.reduce((a, b) => a + b, 0);
}

function measureRow(
  doc: PDFKit.PDFDocument,
  row: readonly NormalCell[],
  widths: readonly number[],
  padding: number,
): MeasuredRow {
  const cells = row.map((cell, index): MeasuredCell => {
    const style = styleOf(cell);
    const indent = cell.sign ? SIGN_SPACE : 0;
    const width = widths[index] ?? 0;
    const texts = cell.text === '' ? [] : linesOf(doc, cell.text, style, width - indent);
    const unders = cell.under === '' ? [] : linesOf(doc, cell.under, TYPE.underCell, width - indent);
    return {
      lines: [
        ...texts.map((text) => ({ text, style, indent })),
        ...unders.map((text) => ({ text, style: TYPE.underCell as Style, indent })),
      ],
      ...(cell.sign ? { sign: cell.sign } : {}),
    };
  });
  return { cells, height: heightOf(cells, padding), padding };
}

function heightOf(cells: readonly MeasuredCell[], padding: number): number {
  const heights = cells.map(({ lines }) => lines.reduce((sum, { style }) => sum + style.leading, 0));
  return Math.max(TYPE.cell.leading, ...heights) + 2 * padding;
}

function styleOf({ strong }: NormalCell): Style {
  return strong ? TYPE.strongCell : TYPE.cell;
}

/** `1 842` and ` ± 14`; `18` and `.42`: what stands before the decimal sign, and the rest. */
export function splitNumber(text: string): [whole: string, part: string] {
  const end = /^[^\d]*\d[\d\u00a0\u202f]*?(?=\D*$|[.,]|\u00a0?±|\u00a0\D)/.exec(text)?.[0].length ?? text.length;
  return [text.slice(0, end), text.slice(end)];
}

function tallest(lines: readonly string[][]): number {
  return Math.max(1, ...lines.map((one) => one.length));
}
