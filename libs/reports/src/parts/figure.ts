import { type DrawCommand, sceneToPaths } from '@breakbook/figures';
import { type FigureBlock } from './blocks.js';
import { bodyWidth } from './paper.js';
import { drawLines } from './paragraph.js';
import { type Pen, type Piece, tagged } from './pieces.js';
import { drawPath } from './sign.js';
import { drawOnBaseline, linesOf, printable, widthOf } from './text.js';
import { type Style, TYPE } from './type.js';

/** A picture with its caption, on one page. */
export function figurePieces({ scene }: FigureBlock, pen: Pen): Piece[] {
  const commands = sceneToPaths(scene);
  const caption = linesOf(pen.doc, scene.caption, TYPE.caption, bodyWidth(pen.paper));
  return [
    {
      height: scene.height,
      above: 10,
      keep: true,
      draw: (at, y) => {
        const { left } = at.paper;
        const bbox: [number, number, number, number] = [left, y, left + scene.width, y + scene.height];
        tagged(at, at.section, 'Figure', { alt: scene.alt, title: scene.title, bbox }, () => {
          at.doc.save().translate(left, y);
          for (const command of commands) drawCommand(at.doc, command);
          at.doc.restore();
        });
      },
    },
    {
      height: caption.length * TYPE.caption.leading,
      above: 5,
      draw: (at, y) =>
        tagged(at, at.section, 'Caption', {}, () => drawLines(at, caption, { x: at.paper.left, y }, TYPE.caption)),
    },
  ];
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
