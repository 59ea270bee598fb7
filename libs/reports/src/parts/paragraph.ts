import type { Listing, Paragraph, Subheading } from './blocks.js';
import { bodyWidth } from './paper.js';
import { type Pen, type Piece, tagged } from './pieces.js';
import { drawSign, SIGN_SPACE } from './sign.js';
import { drawLine, linesOf } from './text.js';
import { type Style, typeOf } from './type.js';

const TONES = { plain: 'body', claim: 'claim', note: 'note' } as const;
const ABOVE = { usual: 5, compact: 3 };
/** About 75 letters of the body: longer lines are hard to follow. */
const LONGEST_LINE = 430;
const BULLET = 10;

export function subheadingPieces({ text }: Subheading, pen: Pen): Piece[] {
  const style = typeOf(pen).subheading;
  const lines = linesOf(pen.doc, text, style, bodyWidth(pen.paper));
  return [
    {
      height: lines.length * style.leading,
      above: pen.compact ? 5 : 9,
      keep: true,
      draw: (at, y) => tagged(at, at.section, 'H3', {}, () => drawLines(at, lines, { x: at.paper.left, y }, style)),
    },
  ];
}

export function paragraphPieces({ text, tone = 'plain', sign, keep }: Paragraph, pen: Pen): Piece[] {
  const style = typeOf(pen)[TONES[tone]];
  const indent = sign ? SIGN_SPACE : 0;
  const width = tone === 'note' ? bodyWidth(pen.paper) : lineWidth(pen);
  const lines = linesOf(pen.doc, text, style, width - indent);
  return linePieces(lines, style, {
    tag: 'P',
    x: pen.paper.left + indent,
    above: tone === 'claim' && !pen.compact ? 8 : aboveOf(pen),
    keep: keep ?? false,
    before: (at, y) => sign && drawSign(at, sign, { x: at.paper.left, y, style }),
  });
}

export function listPieces({ items }: Listing, pen: Pen): Piece[] {
  const style = typeOf(pen).body;
  const width = lineWidth(pen) - BULLET;
  let list: PDFKit.PDFStructureElement | undefined;
  return items.map((item, index) => {
    const lines = linesOf(pen.doc, item, style, width);
    return {
      height: lines.length * style.leading,
      above: index === 0 ? aboveOf(pen) : pen.compact ? 1 : 2,
      draw: (at, y) => {
        if (!list) {
          list = at.doc.struct('L');
          at.section.add(list);
        }
        const element = at.doc.struct('LI');
        list.add(element);
        tagged(at, element, 'Lbl', {}, () => drawLine(at.doc, '–', { x: at.paper.left, y }, style));
        tagged(at, element, 'LBody', {}, () => drawLines(at, lines, { x: at.paper.left + BULLET, y }, style));
        element.end();
        if (index === items.length - 1) list.end();
      },
    };
  });
}

/** On a compact sheet lines are as long as the page is wide. */
function lineWidth({ paper, compact }: Pen): number {
  return compact ? bodyWidth(paper) : Math.min(LONGEST_LINE, bodyWidth(paper));
}

function aboveOf({ compact }: Pen): number {
  return compact ? ABOVE.compact : ABOVE.usual;
}

/** Few lines stay together; many may part, but never leave one line alone on a page. */
function linePieces(
  lines: readonly string[],
  style: Style,
  {
    tag,
    x,
    above,
    keep,
    before,
  }: { tag: string; x: number; above: number; keep: boolean; before: (pen: Pen, y: number) => void },
): Piece[] {
  let element: PDFKit.PDFStructureElement | undefined;
  return lines.map((line, index) => ({
    height: style.leading,
    above: index === 0 ? above : 0,
    keep: index < lines.length - 1 ? lines.length <= 4 || index === 0 || index === lines.length - 2 : keep,
    draw: (pen, y) => {
      if (index === 0) before(pen, y);
      if (!element) {
        element = pen.doc.struct(tag);
        pen.section.add(element);
      }
      element.add(() => drawLine(pen.doc, line, { x, y }, style));
      if (index === lines.length - 1) element.end();
    },
  }));
}

export function drawLines(
  { doc }: Pen,
  lines: readonly string[],
  { x, y }: { x: number; y: number },
  style: Style,
): void {
  for (const [index, line] of lines.entries()) drawLine(doc, line, { x, y: y + index * style.leading }, style);
}
