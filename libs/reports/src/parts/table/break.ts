import type { Table } from '../blocks.js';
import { bodyHeight, bodyWidth } from '../paper.js';
import { drawLines } from '../paragraph.js';
import { type Pen, type Piece, tagged } from '../pieces.js';
import { linesOf } from '../text.js';
import { typeOf } from '../type.js';
import { drawHead, drawHeadAgain, drawRow } from './draw.js';
import { measure, parted, ROW_PADDING } from './measure.js';
import { normalise } from './normalise.js';

const TITLE_GAP = 2;

/**
 * A table as pieces: title, head and the first two rows stay together, as do the last two; no row is cut unless it is
 * taller than a page; the head is drawn again on every further page.
 */
export function tablePieces(block: Table, pen: Pen): Piece[] {
  const measured = measure(
    pen.doc,
    normalise(block),
    bodyWidth(pen.paper),
    ROW_PADDING[pen.compact ? 'compact' : 'usual'],
  );
  const { subheading } = typeOf(pen);
  const { head } = measured;
  const rows = measured.rows.flatMap((row) => parted(row, bodyHeight(pen.paper) - head.height));
  const title = measured.title === undefined ? [] : linesOf(pen.doc, measured.title, subheading, bodyWidth(pen.paper));
  let table: PDFKit.PDFStructureElement | undefined;

  const opening: Piece = {
    height: title.length * subheading.leading + (title.length > 0 ? TITLE_GAP : 0) + head.height,
    above: pen.compact ? 4 : 9,
    keep: true,
    draw: (at, y) => {
      table = at.doc.struct('Table');
      at.section.add(table);
      if (title.length > 0)
        tagged(at, table, 'Caption', {}, () => drawLines(at, title, { x: at.paper.left, y }, subheading));
      drawHead(at, measured, table, y + title.length * subheading.leading + (title.length > 0 ? TITLE_GAP : 0));
    },
  };
  const body = rows.map((row, index): Piece => {
    const last = index === rows.length - 1;
    return {
      height: row.height,
      above: 0,
      keep: !last && (index === 0 || index === rows.length - 2),
      repeated: { height: head.height, draw: (at, y) => drawHeadAgain(at, measured, y) },
      draw: (at, y) => {
        if (!table) throw new Error('a table is drawn from its head');
        drawRow(at, measured, row, { table, y, last });
        if (last) table.end();
      },
    };
  });
  return [opening, ...body];
}
