import type { Fact, Facts } from './blocks.js';
import { bodyWidth } from './paper.js';
import { drawLines } from './paragraph.js';
import { type Pen, type Piece, tagged } from './pieces.js';
import { linesOf } from './text.js';
import { type Style, typeOf } from './type.js';

const GUTTER = 14;
const ABOVE = { usual: 6, compact: 3.5 };

interface MeasuredFact {
  label: string[];
  value: string[];
}

/** Labels over their values, in columns side by side, read row by row. A row is never cut. */
export function factsPieces({ facts, columns, together }: Omit<Facts, 'block'>, pen: Pen): Piece[] {
  const type = typeOf(pen);
  const width = (bodyWidth(pen.paper) - (columns - 1) * GUTTER) / columns;
  const measured = facts.map(({ label, value }: Fact) => ({
    label: linesOf(pen.doc, label, type.label, width),
    value: linesOf(pen.doc, value, type.body, width),
  }));
  let list: PDFKit.PDFStructureElement | undefined;
  const rows = inRows(measured, columns);
  return rows.map((row, index) => ({
    height: Math.max(...row.map((fact) => heightOf(fact, type))),
    above: pen.compact ? ABOVE.compact : ABOVE.usual,
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
        tagged(at, item, 'Lbl', {}, () => drawLines(at, label, { x, y }, type.label));
        const below = y + label.length * type.label.leading;
        tagged(at, item, 'LBody', {}, () => drawLines(at, value, { x, y: below }, type.body));
        item.end();
      }
      if (index === rows.length - 1) list.end();
    },
  }));
}

function heightOf({ label, value }: MeasuredFact, type: { label: Style; body: Style }): number {
  return label.length * type.label.leading + value.length * type.body.leading;
}

function inRows<T>(items: readonly T[], columns: number): T[][] {
  return Array.from({ length: Math.ceil(items.length / columns) }, (_, row) =>
    items.slice(row * columns, (row + 1) * columns),
  );
}
