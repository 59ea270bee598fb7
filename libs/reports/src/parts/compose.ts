import { PALETTES } from '@breakbook/figures';
import { ENGLISH_SHEET } from '../words/sheet-words.js';
import { besidePieces } from './beside.js';
import type { Block, DocumentSheet, Section } from './blocks.js';
import { boxPieces } from './box.js';
import { factsPieces } from './facts.js';
import { figurePieces } from './figure.js';
import { drawFeet } from './foot.js';
import { headStripPieces } from './head-strip.js';
import { closeDocument, type DocumentData, openDocument } from './open-document.js';
import { bodyWidth, type Paper } from './paper.js';
import { drawLines, listPieces, paragraphPieces, subheadingPieces } from './paragraph.js';
import { layOut, type Pen, type Piece, rule, tagged } from './pieces.js';
import { addSignaturePlace } from './signature-place.js';
import { signaturePieces } from './signatures.js';
import { tablePieces } from './table/break.js';
import { holdsMissing, linesOf, MISSING } from './text.js';
import { TYPE, typeOf } from './type.js';

/** The bytes of a document: its sheet laid on pages of this paper, with its data attached. */
export function composeSheet(sheet: DocumentSheet, paper: Paper, data: DocumentData): Promise<Uint8Array> {
  const doc = openDocument(paper, { ...data, language: (sheet.words ?? ENGLISH_SHEET).language });
  laySheet(doc, sheet, paper, data);
  return closeDocument(doc);
}

/** How many pages of this paper a sheet takes. */
export function pagesOf(sheet: DocumentSheet, paper: Paper, data: DocumentData): number {
  const { signedBy: _, ...rest } = data;
  const doc = openDocument(paper, { ...rest, attached: [] });
  laySheet(doc, sheet, paper, rest);
  return doc.bufferedPageRange().count;
}

function laySheet(
  doc: PDFKit.PDFDocument,
  sheet: DocumentSheet,
  paper: Paper,
  data: Omit<DocumentData, 'attached'>,
): void {
  const words = sheet.words ?? ENGLISH_SHEET;
  doc.addPage();
  const root = doc.struct('Document', { title: data.title });
  doc.addStructure(root);

  let y = inSection(undefined, (pen) => headStripPieces(sheet.head, pen, words), paper.top);
  for (const [index, section] of sheet.sections.entries()) {
    const last = index === sheet.sections.length - 1;
    const pieces = (pen: Pen) => [...sectionPieces(section, pen), ...(last ? endPieces(sheet, pen) : [])];
    y = inSection(section, pieces, y);
  }
  if (data.signedBy !== undefined)
    addSignaturePlace(doc, root, {
      by: data.signedBy,
      at: data.issuedAt,
      alt: words.signatureOf(data.signedBy),
    });
  root.end();
  drawFeet(doc, paper, sheet.foot, words);

  function inSection(section: Section | undefined, pieces: (pen: Pen) => Piece[], from: number): number {
    const element = doc.struct('Sect', section ? { title: section.heading } : {});
    root.add(element);
    const pen: Pen = { doc, paper, compact: sheet.compact, section: element };
    const to = layOut(pieces(pen), pen, from);
    element.end();
    return to;
  }
}

function sectionPieces({ heading, blocks }: Section, pen: Pen): Piece[] {
  return [headingPiece(heading, pen), ...blocks.flatMap((block) => blockPieces(block, pen))];
}

function headingPiece(heading: string, pen: Pen): Piece {
  const style = typeOf(pen).heading;
  const lines = linesOf(pen.doc, heading, style, bodyWidth(pen.paper));
  const ruleGap = pen.compact ? 3 : 5;
  return {
    height: ruleGap + lines.length * style.leading,
    above: pen.compact ? 5 : 16,
    keep: true,
    draw: (at, y) => {
      rule(at.doc, { from: at.paper.left, to: at.paper.right, y, width: 0.5, colour: PALETTES.print.muted });
      at.doc.outline.addItem(heading);
      tagged(at, at.section, 'H2', {}, () => drawLines(at, lines, { x: at.paper.left, y: y + ruleGap }, style));
    },
  };
}

function blockPieces(block: Block, pen: Pen): Piece[] {
  switch (block.block) {
    case 'subheading':
      return subheadingPieces(block, pen);
    case 'paragraph':
      return paragraphPieces(block, pen);
    case 'list':
      return listPieces(block, pen);
    case 'facts':
      return factsPieces(block, pen);
    case 'table':
      return tablePieces(block, pen);
    case 'figure':
      return figurePieces(block, pen);
    case 'figure beside':
      return besidePieces(block, pen);
    case 'signatures':
      return signaturePieces(block, pen);
    case 'box':
      return boxPieces(block, pen);
  }
}

/** The last line of the document, and before it what a letter that could not be printed looks like. */
function endPieces(sheet: DocumentSheet, pen: Pen): Piece[] {
  const words = JSON.stringify([sheet.head, sheet.sections]);
  const note = holdsMissing(pen.doc, words, TYPE.body)
    ? paragraphPieces(
        {
          block: 'paragraph',
          tone: 'note',
          text: (sheet.words ?? ENGLISH_SHEET).missing(MISSING),
        },
        pen,
      )
    : [];
  return [...note, ...endMarkPieces(sheet.endMark, pen)];
}

function endMarkPieces(text: string, pen: Pen): Piece[] {
  const style = typeOf(pen).subheading;
  const lines = linesOf(pen.doc, text, style, bodyWidth(pen.paper));
  return [
    {
      height: lines.length * style.leading,
      above: pen.compact ? 4 : 22,
      draw: (at, y) => tagged(at, at.section, 'P', {}, () => drawLines(at, lines, { x: at.paper.left, y }, style)),
    },
  ];
}
