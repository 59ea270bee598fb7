import { type DrawCommand, type Scene, sceneToPaths } from '@breakbook/figures';
import type { FigureBlock } from './blocks.js';
import { bodyWidth } from './paper.js';
import { drawLines } from './paragraph.js';
import { type Pen, type Piece, tagged } from './pieces.js';
import { drawPath } from './sign.js';
import { drawOnBaseline, linesOf, printable, widthOf } from './text.js';
import { type Style, typeOf } from './type.js';

/** A picture with its caption, on one page. */
export function figurePieces({ scene }: FigureBlock, pen: Pen): Piece[] {
  const type = typeOf(pen);
  const caption = linesOf(pen.doc, scene.caption, type.caption, bodyWidth(pen.paper));
  return [
    {
      height: scene.height,
      above: pen.compact ? 5 : 10,
      keep: true,
      draw: (at, y) => {
        drawFigure(at, scene, y);
      },
    },
    {
      height: caption.length * type.caption.leading,
      above: pen.compact ? 2 : 5,
      draw: (at, y) =>
        tagged(at, at.section, 'Caption', {}, () => drawLines(at, caption, { x: at.paper.left, y }, type.caption)),
    },
  ];
}

/** The picture itself, from the left edge of the body, its upper edge at `y`. */
export function drawFigure(at: Pen, scene: Scene, y: number): void {
  const { left } = at.paper;
  const bbox: [number, number, number, number] = [left, y, left + scene.width, y + scene.height];
  tagged(at, at.section, 'Figure', { alt: scene.alt, title: scene.title, bbox }, () => {
    at.doc.save().translate(left, y);
    for (const command of sceneToPaths(scene)) drawCommand(at.doc, command);
    at.doc.restore();
  });
}

function drawCommand(doc: PDFKit.PDFDocument, command: DrawCommand): void {
  if (command.draw === 'path') {
    drawPath(doc, command);
    return;
  }
  const { text, x, y, size, anchor, colour, strong } = command;
  const style: Style = { face: strong ? 'bold' : 'regular', size, leading: size, colour };
  const words = printable(doc, text, style);
  const width = anchor === 'start' ? 0 : widthOf(doc, words, style);
  drawOnBaseline(doc, words, { x: x - (anchor === 'middle' ? width / 2 : width), y }, style);
}
