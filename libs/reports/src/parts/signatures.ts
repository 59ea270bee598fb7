import { PALETTES } from '@breakbook/figures';
import { type Signatures } from './blocks.js';
import { bodyWidth } from './paper.js';
import { drawLines } from './paragraph.js';
import { type Pen, type Piece, rule, tagged } from './pieces.js';
import { linesOf } from './text.js';
import { TYPE } from './type.js';

const GUTTER = 16;
const ROOM_TO_SIGN = 26;

/** Who signs for what, side by side over lines to sign on, all on one page. */
export function signaturePieces({ signatures }: Signatures, pen: Pen): Piece[] {
  const columns = Math.max(1, signatures.length);
  const width = (bodyWidth(pen.paper) - (columns - 1) * GUTTER) / columns;
  const measured = signatures.map(({ meaning, name, role, signed }) => ({
    meaning: linesOf(pen.doc, meaning, TYPE.strongCell, width),
    words: [name, role, signed].flatMap((text) => linesOf(pen.doc, text, TYPE.cell, width)),
  }));
  const head = Math.max(0, ...measured.map(({ meaning }) => meaning.length)) * TYPE.strongCell.leading;
  const foot = Math.max(0, ...measured.map(({ words }) => words.length)) * TYPE.cell.leading;
  return [
    {
      height: head + ROOM_TO_SIGN + 4 + foot,
      above: 10,
      draw: (at, y) => {
        const list = at.doc.struct('L');
        at.section.add(list);
        for (const [index, { meaning, words }] of measured.entries()) {
          const x = at.paper.left + index * (width + GUTTER);
          const line = y + head + ROOM_TO_SIGN;
          const item = at.doc.struct('LI');
          list.add(item);
          tagged(at, item, 'Lbl', {}, () => drawLines(at, meaning, { x, y }, TYPE.strongCell));
          rule(at.doc, { from: x, to: x + width, y: line, width: 0.6, colour: PALETTES.print.ink });
          tagged(at, item, 'LBody', {}, () => drawLines(at, words, { x, y: line + 4 }, TYPE.cell));
          item.end();
        }
        list.end();
      },
    },
  ];
}
