import { PALETTES } from '@breakbook/figures';
import type { Signatures } from './blocks.js';
import { codeOf, drawCode } from './code.js';
import { bodyWidth } from './paper.js';
import { drawLines } from './paragraph.js';
import { type Pen, type Piece, rule, tagged } from './pieces.js';
import { linesOf } from './text.js';
import { TYPE } from './type.js';

const GUTTER = 16;
const ROOM_TO_SIGN = { usual: 26, compact: 10 };

/** Large enough for a camera at arm's length: 18 mm. */
const CODE_SIDE = (18 / 25.4) * 72;

/** Who signs for what, side by side over lines to sign on, all on one page. */
export function signaturePieces({ signatures, code }: Signatures, pen: Pen): Piece[] {
  const beside = code ? CODE_SIDE + GUTTER : 0;
  const room = pen.compact ? ROOM_TO_SIGN.compact : ROOM_TO_SIGN.usual;
  const columns = Math.max(1, signatures.length);
  const width = (bodyWidth(pen.paper) - beside - (columns - 1) * GUTTER) / columns;
  const measured = signatures.map(({ meaning, name, role, signed }) => ({
    meaning: linesOf(pen.doc, meaning, TYPE.strongCell, width),
    words: (pen.compact ? [[name, role].filter((one) => one !== '').join(', '), signed] : [name, role, signed]).flatMap(
      (text) => linesOf(pen.doc, text, TYPE.cell, width),
    ),
  }));
  const head = Math.max(0, ...measured.map(({ meaning }) => meaning.length)) * TYPE.strongCell.leading;
  const foot = Math.max(0, ...measured.map(({ words }) => words.length)) * TYPE.cell.leading;
  return [
    {
      height: Math.max(head + room + 4 + foot, code ? CODE_SIDE : 0),
      above: pen.compact ? 5 : 10,
      draw: (at, y) => {
        if (code) drawCodeAt(at, code, y);
        const list = at.doc.struct('L');
        at.section.add(list);
        for (const [index, { meaning, words }] of measured.entries()) {
          const x = at.paper.left + beside + index * (width + GUTTER);
          const line = y + head + room;
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

function drawCodeAt(at: Pen, { form, text, alt }: NonNullable<Signatures['code']>, y: number): void {
  const { left } = at.paper;
  tagged(at, at.section, 'Figure', { alt, bbox: [left, y, left + CODE_SIDE, y + CODE_SIDE] }, () =>
    drawCode(at.doc, codeOf(form, text), { x: left, y, side: CODE_SIDE }),
  );
}
