import { PALETTES } from '@breakbook/figures';
import type { HeadStrip, SheetWords } from './blocks.js';
import { factsPieces } from './facts.js';
import { bodyWidth } from './paper.js';
import { drawLines } from './paragraph.js';
import { type Pen, type Piece, rule, tagged } from './pieces.js';
import { drawSign, outcomeStyle, SIGN_SPACE } from './sign.js';
import { linesOf, widthOf } from './text.js';
import { type Style, typeOf } from './type.js';

const SIGN = 18;

/** What this is, what it came to, and what happens next; then who, what, how and when. */
export function headStripPieces(head: HeadStrip, pen: Pen, words: SheetWords): Piece[] {
  const type = typeOf(pen);
  const tight = pen.compact ? 0.4 : 1;
  const width = bodyWidth(pen.paper);
  const { outcome, word = outcome, sentence } = head.outcome;
  return [
    issuerPiece(head, pen),
    ...(head.banner === undefined ? [] : [textPiece(head.banner, type.subheading, 'P', 8)]),
    textPiece(head.kind, type.name, 'H1', 12),
    textPiece(head.subject, type.subject, 'P', 2),
    outcomePiece(),
    textPiece(sentence, type.claim, 'P', 3),
    textPiece(words.stateAndNext(head.state, head.next), type.action, 'P', 5),
    rulePiece(),
    ...factsPieces({ facts: head.facts, columns: pen.compact ? 4 : 3 }, pen),
  ];

  function textPiece(text: string, style: Style, tag: string, above: number): Piece {
    const lines = linesOf(pen.doc, text, style, width);
    return {
      height: lines.length * style.leading,
      above: above * tight,
      keep: true,
      draw: (at, y) => tagged(at, at.section, tag, {}, () => drawLines(at, lines, { x: at.paper.left, y }, style)),
    };
  }

  function outcomePiece(): Piece {
    const style = outcomeStyle(outcome, type.outcome);
    const lines = linesOf(pen.doc, word, style, width - SIGN_SPACE);
    return {
      height: lines.length * style.leading,
      above: 10 * tight,
      keep: true,
      draw: (at, y) => {
        drawSign(at, outcome, { x: at.paper.left, y, style, space: SIGN - 4 });
        tagged(at, at.section, 'P', {}, () => drawLines(at, lines, { x: at.paper.left + SIGN, y }, style));
      },
    };
  }

  function rulePiece(): Piece {
    return {
      height: 1,
      above: 8 * tight,
      keep: true,
      draw: ({ doc, paper }, y) =>
        rule(doc, { from: paper.left, to: paper.right, y, width: 0.5, colour: PALETTES.print.muted }),
    };
  }
}

/** Who issues it at the left, its number at the right, over a strong rule. */
function issuerPiece({ issuer, number }: HeadStrip, pen: Pen): Piece {
  const type = typeOf(pen);
  const width = bodyWidth(pen.paper);
  const numberWidth = Math.min(width * 0.45, widthOf(pen.doc, number, type.subheading) + 1);
  const name = linesOf(pen.doc, issuer.name, type.subheading, width - numberWidth - 12);
  const address = linesOf(pen.doc, issuer.address.replace(/\n/g, ', '), type.note, width - numberWidth - 12);
  const numberLines = linesOf(pen.doc, number, type.subheading, numberWidth);
  const left = name.length * type.subheading.leading + address.length * type.note.leading;
  const height = Math.max(left, numberLines.length * type.subheading.leading) + 6;
  return {
    height,
    above: 0,
    keep: true,
    draw: (at, y) => {
      const { paper, doc } = at;
      tagged(at, at.section, 'P', {}, () => {
        drawLines(at, name, { x: paper.left, y }, type.subheading);
        drawLines(at, address, { x: paper.left, y: y + name.length * type.subheading.leading }, type.note);
      });
      tagged(at, at.section, 'P', {}, () =>
        drawLines(at, numberLines, { x: paper.right - numberWidth, y }, type.subheading),
      );
      rule(doc, { from: paper.left, to: paper.right, y: y + height - 1, width: 1.4, colour: PALETTES.print.ink });
    },
  };
}
