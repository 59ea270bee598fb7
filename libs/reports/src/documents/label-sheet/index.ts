import { codeOf, drawCode } from '../../parts/code.js';
import { closeDocument, type DocumentData, openDocument } from '../../parts/open-document.js';
import { PAPERS } from '../../parts/paper.js';
import { drawLines } from '../../parts/paragraph.js';
import { type Pen, tagged } from '../../parts/pieces.js';
import { addSignaturePlace } from '../../parts/signature-place.js';
import { linesOf } from '../../parts/text.js';
import { type Style, TYPE } from '../../parts/type.js';
import type { Printing } from '../../words/printing.js';
import { sheetWords } from '../../words/sheet-words.js';
import type { LabelSheetContent, SpecimenLabel } from './content.js';
import { MESSAGES } from './messages.js';

const POINTS_PER_MM = 72 / 25.4;
/** No printer meets the edge of a label to the millimetre. */
const PADDING = 2.5 * POINTS_PER_MM;
const GUTTER = 2 * POINTS_PER_MM;
const LARGEST_CODE = 22 * POINTS_PER_MM;

/**
 * Sheets of labels, each cut off by itself: there is no head and no foot that would fall on one. A label has the code, the
 * short number in the largest letters that it has room for, lot, product, and the caution.
 */
export function composeLabels(content: LabelSheetContent, printing: Printing, data: DocumentData): Promise<Uint8Array> {
  const { grid, used, labels } = content;
  const paper = PAPERS[grid.paper];
  const doc = openDocument(paper, { ...data, language: printing.language });
  const root = doc.struct('Document', { title: data.title });
  doc.addStructure(root);
  const perPage = grid.columns * grid.rows;
  for (const [index, label] of labels.entries()) {
    const place = (used + index) % perPage;
    if (index === 0 || place === 0) doc.addPage();
    const section = doc.struct('Sect', { title: label.specimen });
    root.add(section);
    const [column, row] = [place % grid.columns, Math.floor(place / grid.columns)];
    drawLabel({ doc, paper, section }, label, content, printing, {
      x: (grid.left + column * grid.across) * POINTS_PER_MM,
      y: (grid.top + row * grid.down) * POINTS_PER_MM,
      width: grid.width * POINTS_PER_MM,
      height: grid.height * POINTS_PER_MM,
    });
    section.end();
  }
  if (data.signedBy !== undefined)
    addSignaturePlace(doc, root, {
      by: data.signedBy,
      at: data.issuedAt,
      alt: sheetWords(printing).signatureOf(data.signedBy),
    });
  root.end();
  return closeDocument(doc);
}

function drawLabel(
  pen: Pen,
  { code, specimen, serial, lot, product }: SpecimenLabel,
  { lab, codeForm }: LabelSheetContent,
  printing: Printing,
  at: { x: number; y: number; width: number; height: number },
): void {
  const messages = MESSAGES[printing.language];
  const [left, top] = [at.x + PADDING, at.y + PADDING];
  const height = at.height - 2 * PADDING;
  const side = Math.min(height, LARGEST_CODE, (at.width - 2 * PADDING) * 0.4);
  const codeTop = top + (height - side) / 2;
  tagged(
    pen,
    pen.section,
    'Figure',
    { alt: messages.alt(code), bbox: [left, codeTop, left + side, codeTop + side] },
    () => drawCode(pen.doc, codeOf(codeForm, code), { x: left, y: codeTop, side }),
  );
  const x = left + side + GUTTER;
  const width = at.width - PADDING - (x - at.x);
  const texts: [string, Style, number][] = [
    [messages.specimen(specimen), { ...TYPE.subheading, size: 11, leading: 13 }, 2],
    [[messages.lot(lot), ...(serial === undefined ? [] : [serial])].join(', '), TYPE.cell, 2],
    [product, TYPE.cell, 1],
    [messages.caution, TYPE.strongCell, 2],
    [lab, TYPE.underCell, 1],
  ];
  const parts = texts.map(([text, style, most]) => ({
    lines: linesOf(pen.doc, text, style, width).slice(0, most),
    style,
  }));
  const heightOf = () => parts.reduce((sum, { lines, style }) => sum + lines.length * style.leading, 0);
  // What a small label has no room for goes from the least needed: the lab, then the product; number and caution stay.
  for (const dropped of [4, 2, 1]) {
    if (heightOf() <= height) break;
    const part = parts[dropped];
    if (part) part.lines = [];
  }
  let y = top + Math.max(0, (height - heightOf()) / 2);
  for (const { lines, style } of parts) {
    if (lines.length === 0) continue;
    const above = y;
    tagged(pen, pen.section, 'P', {}, () => drawLines(pen, lines, { x, y: above }, style));
    y += lines.length * style.leading;
  }
}
