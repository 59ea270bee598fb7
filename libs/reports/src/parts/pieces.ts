import type {} from '../pdfkit-more.js';
import type { Paper } from './paper.js';

/** What measuring and drawing need: the document, its paper, and where in the tree of tags the next thing hangs. */
export interface Pen {
  doc: PDFKit.PDFDocument;
  paper: Paper;
  /** In smaller letters and closer together. */
  compact?: true | undefined;
  section: PDFKit.PDFStructureElement;
}

/** A part of a document that is never cut: its height is known, its place is not. */
export interface Piece {
  height: number;
  /** Room above it, given up at the top of a page. */
  above: number;
  /** Stays on one page with what follows, as a heading does. */
  keep?: boolean;
  /** Draws with its upper edge at `y`. */
  draw: (pen: Pen, y: number) => void;
  /** Drawn above it where it begins a page: the head of the table it belongs to. */
  repeated?: { height: number; draw: (pen: Pen, y: number) => void };
}

/**
 * Lays pieces on pages, in order. A piece that must stay with the next is held back until the first of them that need
 * not, and the group goes to a new page when it does not fit on this one. Answers where the next piece would go.
 */
export function layOut(pieces: readonly Piece[], pen: Pen, from: number): number {
  const { paper, doc } = pen;
  let y = from;
  for (const group of groups(pieces)) {
    const needed = group.reduce(
      (sum, { height, above }, index) => sum + height + (index === 0 && y === paper.top ? 0 : above),
      0,
    );
    if (y !== paper.top && y + needed > paper.bottom) {
      doc.addPage();
      y = paper.top;
    }
    for (const piece of group) {
      // A group taller than a page has to be parted after all, between its pieces.
      if (y !== paper.top && y + piece.above + piece.height > paper.bottom) {
        doc.addPage();
        y = paper.top;
      }
      if (y === paper.top && piece.repeated) {
        piece.repeated.draw(pen, y);
        y += piece.repeated.height;
      } else if (y !== paper.top) y += piece.above;
      piece.draw(pen, y);
      y += piece.height;
    }
  }
  return y;
}

function groups(pieces: readonly Piece[]): Piece[][] {
  const all: Piece[][] = [];
  let group: Piece[] = [];
  for (const piece of pieces) {
    group.push(piece);
    if (!piece.keep) {
      all.push(group);
      group = [];
    }
  }
  return group.length > 0 ? [...all, group] : all;
}

/** Draws what is no content, such as a rule: readers that follow tags pass over it. */
export function decorate(doc: PDFKit.PDFDocument, draw: () => void): void {
  doc.markContent('Artifact', { type: 'Layout' });
  draw();
  doc.endMarkedContent();
}

/** A horizontal rule. */
export function rule(
  doc: PDFKit.PDFDocument,
  { from, to, y, width, colour }: { from: number; to: number; y: number; width: number; colour: string },
): void {
  decorate(doc, () => {
    doc.save().lineWidth(width).strokeColor(colour).moveTo(from, y).lineTo(to, y).stroke().restore();
  });
}

/** Adds a tagged element under another and draws its content. */
export function tagged(
  { doc }: Pen,
  parent: PDFKit.PDFStructureElement,
  tag: string,
  options: PDFKit.Mixins.StructureElementOptions,
  draw: () => void,
): void {
  const element = doc.struct(tag, options);
  parent.add(element);
  element.add(draw);
  element.end();
}
