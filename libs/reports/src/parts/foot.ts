import { PALETTES } from '@breakbook/figures';
import type { Foot, SheetWords } from './blocks.js';
import { bodyWidth, type Paper } from './paper.js';
import { drawLine, linesOf, widthOf } from './text.js';
import { TYPE } from './type.js';

const BELOW_BODY = 9;

/** The foot of every page, once their number is known: which document, how many pages, and how it may be copied. */
export function drawFeet(
  doc: PDFKit.PDFDocument,
  paper: Paper,
  { identity, notice }: Foot,
  { page: pageOf }: Pick<SheetWords, 'page'>,
): void {
  const { start, count } = doc.bufferedPageRange();
  for (let page = 0; page < count; page += 1) {
    doc.switchToPage(start + page);
    doc.markContent('Artifact', { type: 'Pagination', attached: ['Bottom'] });
    drawFoot(doc, paper, [identity, notice, pageOf(page + 1, count)]);
    doc.endMarkedContent();
  }
}

function drawFoot(doc: PDFKit.PDFDocument, paper: Paper, [identity, notice, pages]: [string, string, string]): void {
  const style = TYPE.foot;
  const y = paper.bottom + BELOW_BODY;
  doc
    .save()
    .lineWidth(0.5)
    .strokeColor(PALETTES.print.muted)
    .moveTo(paper.left, y - 3)
    .lineTo(paper.right, y - 3)
    .stroke()
    .restore();
  const third = bodyWidth(paper) / 3;
  const [first = ''] = linesOf(doc, identity, style, third * 1.2);
  drawLine(doc, first, { x: paper.left, y }, style);
  const [middle = ''] = linesOf(doc, notice, style, third);
  drawLine(doc, middle, { x: (paper.left + paper.right - widthOf(doc, middle, style)) / 2, y }, style);
  drawLine(doc, pages, { x: paper.right - widthOf(doc, pages, style), y }, style);
}
