import { PALETTES } from '@breakbook/figures';
import type { Box } from './blocks.js';
import { bodyWidth } from './paper.js';
import { decorate, type Pen, type Piece, tagged } from './pieces.js';
import { drawLine, linesOf } from './text.js';
import { type Style, TYPE } from './type.js';

const PADDING = 8;
const ABOVE = 8;
const BETWEEN = 4;

/**
 * What must not be taken for anything else on the page: a title and paragraphs within lines. It may be cut between two
 * lines of text; its sides then go on on the next page.
 */
export function boxPieces({ title, paragraphs }: Box, pen: Pen): Piece[] {
  const width = bodyWidth(pen.paper) - 2 * PADDING;
  const texts: [string, Style][] = [
    [title, TYPE.subheading],
    ...paragraphs.map((text): [string, Style] => [text, TYPE.body]),
  ];
  const lines = texts.flatMap(([text, style], index) => {
    const own = linesOf(pen.doc, text, style, width);
    return own.map((line, at) => ({ line, style, gap: index > 0 && at === 0 ? BETWEEN : 0 }));
  });
  const last = lines.length - 1;
  return lines.map(({ line, style, gap }, index) => {
    const above = index === 0 ? PADDING : gap;
    const height = above + style.leading + (index === last ? PADDING : 0);
    return {
      height,
      above: index === 0 ? ABOVE : 0,
      // Neither the title nor the last line stands alone.
      keep: index < last && (index < 2 || index === last - 1),
      draw: (at, y) => {
        drawSides(at, { y, height, top: index === 0, bottom: index === last });
        tagged(at, at.section, 'P', {}, () =>
          drawLine(at.doc, line, { x: at.paper.left + PADDING, y: y + above }, style),
        );
      },
    };
  });
}

function drawSides(
  { doc, paper }: Pen,
  { y, height, top, bottom }: { y: number; height: number; top: boolean; bottom: boolean },
): void {
  const { left, right } = paper;
  decorate(doc, () => {
    doc.save().lineWidth(0.8).strokeColor(PALETTES.print.ink);
    for (const x of [left, right])
      doc
        .moveTo(x, y)
        .lineTo(x, y + height)
        .stroke();
    if (top) doc.moveTo(left, y).lineTo(right, y).stroke();
    if (bottom)
      doc
        .moveTo(left, y + height)
        .lineTo(right, y + height)
        .stroke();
    doc.restore();
  });
}
