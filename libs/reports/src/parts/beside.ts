import type { FigureBeside } from './blocks.js';
import { factsPieces } from './facts.js';
import { drawFigure } from './figure.js';
import type { Paper } from './paper.js';
import { drawLines } from './paragraph.js';
import { type Pen, type Piece, tagged } from './pieces.js';
import { linesOf } from './text.js';
import { typeOf } from './type.js';

const GUTTER = 14;
const TO_CAPTION = 2;

/** A narrow picture with its caption at the left, and facts at its right; never cut. */
export function besidePieces({ scene, facts, columns }: FigureBeside, pen: Pen): Piece[] {
  const { caption: style } = typeOf(pen);
  const caption = linesOf(pen.doc, scene.caption, style, scene.width);
  const paper = rightOf(pen.paper, scene.width);
  const pieces = factsPieces({ facts, columns }, { ...pen, paper });
  const told = pieces.reduce((sum, { height, above }, index) => sum + height + (index === 0 ? 0 : above), 0);
  return [
    {
      height: Math.max(scene.height + TO_CAPTION + caption.length * style.leading, told),
      above: 5,
      draw: (at, y) => {
        const { left } = at.paper;
        drawFigure(at, scene, y);
        const below = y + scene.height + TO_CAPTION;
        tagged(at, at.section, 'Caption', {}, () => drawLines(at, caption, { x: left, y: below }, style));
        let top = y;
        for (const [index, piece] of pieces.entries()) {
          top += index === 0 ? 0 : piece.above;
          piece.draw({ ...at, paper: rightOf(at.paper, scene.width) }, top);
          top += piece.height;
        }
      },
    },
  ];
}

function rightOf(paper: Paper, width: number): Paper {
  return { ...paper, left: paper.left + width + GUTTER };
}
