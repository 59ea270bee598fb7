import { PALETTES } from '@breakbook/figures';
import { drawLines } from '../paragraph.js';
import { type Pen, rule, tagged } from '../pieces.js';
import { drawSign, outcomeStyle } from '../sign.js';
import { drawLine, widthOf } from '../text.js';
import { TYPE } from '../type.js';
import {
  type MeasuredCell,
  type MeasuredColumn,
  type MeasuredRow,
  type MeasuredTable,
  splitNumber,
} from './measure.js';

const HEAD_PADDING = 3;

/** The head as tagged content, once, at the top of the table. */
export function drawHead(
  pen: Pen,
  { columns, head }: MeasuredTable,
  table: PDFKit.PDFStructureElement,
  y: number,
): void {
  const row = pen.doc.struct('TR');
  table.add(row);
  for (const [index, column] of columns.entries())
    tagged(pen, row, 'TH', { scope: 'Column' }, () => drawTitle(pen, column, head.lines[index] ?? [], y));
  row.end();
  drawHeadRule(pen, y + head.height);
}

/** The head again on a further page: for the eye only, since a reader of tags has heard it. */
export function drawHeadAgain(pen: Pen, { columns, head }: MeasuredTable, y: number): void {
  pen.doc.markContent('Artifact', { type: 'Pagination' });
  for (const [index, column] of columns.entries()) drawTitle(pen, column, head.lines[index] ?? [], y);
  pen.doc.endMarkedContent();
  drawHeadRule(pen, y + head.height);
}

export function drawRow(
  pen: Pen,
  { columns }: MeasuredTable,
  { cells, height, padding, continues }: MeasuredRow,
  { table, y, last }: { table: PDFKit.PDFStructureElement; y: number; last: boolean },
): void {
  const { doc, paper } = pen;
  const row = doc.struct('TR');
  table.add(row);
  for (const [index, column] of columns.entries()) {
    const cell = cells[index] ?? { lines: [] };
    const x = paper.left + column.x;
    const top = y + padding;
    if (cell.sign) drawSign(pen, cell.sign, { x, y: top, style: TYPE.cell });
    const [tag, options] = index === 0 ? (['TH', { scope: 'Row' }] as const) : (['TD', {}] as const);
    tagged(pen, row, tag, options, () => drawCell(doc, cell, column, { x, y: top }));
  }
  row.end();
  if (continues) return;
  const strong = last ? { width: 0.7, colour: PALETTES.print.ink } : { width: 0.4, colour: PALETTES.print.faint };
  rule(doc, { from: paper.left, to: paper.right, y: y + height, ...strong });
}

function drawCell(
  doc: PDFKit.PDFDocument,
  { lines, sign }: MeasuredCell,
  column: MeasuredColumn,
  { x, y }: { x: number; y: number },
): void {
  const shift = shiftOf(doc, lines, column);
  let top = y;
  for (const { text, style, indent } of lines) {
    const inked = sign && style !== TYPE.underCell ? outcomeStyle(sign, style) : style;
    drawLine(doc, text, { x: x + indent + shift, y: top }, inked);
    top += style.leading;
  }
}

/** How far a cell moves in so that the decimal sign of its number stands under the others. */
function shiftOf(doc: PDFKit.PDFDocument, [first]: MeasuredCell['lines'], { align, decimal }: MeasuredColumn): number {
  if (align === 'left' || !first || !/\d/.test(first.text)) return 0;
  return Math.max(0, decimal - widthOf(doc, splitNumber(first.text)[0], first.style));
}

function drawTitle(pen: Pen, column: MeasuredColumn, lines: readonly string[], y: number): void {
  drawLines(pen, lines, { x: pen.paper.left + column.x, y: y + HEAD_PADDING }, TYPE.columnTitle);
}

function drawHeadRule({ doc, paper }: Pen, y: number): void {
  rule(doc, { from: paper.left, to: paper.right, y, width: 0.8, colour: PALETTES.print.ink });
}
