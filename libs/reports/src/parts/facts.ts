import { type Fact, type Facts } from './blocks.js';
import { bodyWidth } from './paper.js';
import { drawLines } from './paragraph.js';
import { type Pen, type Piece, tagged } from './pieces.js';
import { linesOf } from './text.js';
import { TYPE } from './type.js';

const GUTTER = 14;
const ABOVE = 6;

interface MeasuredFact {
  label: string[];
  value: string[];
}

/** Labels over their values, in columns side by side, read row by row. A row is never cut. */
export function factsPieces({ facts, columns, together }: Omit<Facts, 'block'>, pen: Pen): Piece[] {
  const width = (bodyWidth(pen.paper) - (columns - 1) * GUTTER) / columns;
  const measured = facts.map(({ label, value }: Fact) => ({
    label: linesOf(pen.doc, label, TYPE.label, width),
    value: linesOf(pen.doc, value, TYPE.body, width),
  }));
  let list: PDFKit.PDFStructureElement | undefined;
  const rows = inRows(measured, columns);
  return rows.map((row, index) => ({
    height: Math.max(...row.map(heightOf)),
    above: ABOVE,
    ...(together ? { keep: true } : {}),
    draw: (at, y) => {
      if (!list) {
        list = at.doc.struct('L');
        at.section.add(list);
      }
      for (const [column, { label, value }] of row.entries()) {
        const x = at.paper.left + column * (width + GUTTER);
        const item = at.doc.struct('LI');
        list.add(item);
        tagged(at, item, 'Lbl', {}, () => drawLines(at, label, { x, y }, TYPE.label));
        const below = y + label.length * TYPE.label.leading;
        tagged(at, item, 'LBody', {}, () => drawLines(at, value, { x, y: below }, TYPE.body));
        item.end();
      }
      if (index === rows.length - 1) list.end();
    },
  }));
}

function heightOf({ label, value }: MeasuredFact): number {
  return label.length * TYPE.label.leading + value.length * TYPE.body.leading;
}

function inRows<T>(items: readonly T[], columns: number): T[][] {
  return Array.from({ length: Math.ceil(items.length / columns) }, (_, row) =>
    items.slice(row * columns, (row + 1) * columns),
  );
}
