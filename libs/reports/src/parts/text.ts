import { QUANTITY_KINDS, unitSymbol } from '@breakbook/units';
import { drawOutlines, NO_BREAK } from './draw-outlines.js';
import { isFurther, shaped } from './further-scripts.js';
import { type Face, FONT_FILES, isBold, type Style } from './type.js';
import { visualRuns } from './visual-runs.js';

/**
 * Text as it can be printed: composed letters, numbers and their units held together, and a sign of its own for
 * letters that the embedded fonts do not have. The attached data keep every letter.
 */
export function printable(doc: PDFKit.PDFDocument, text: string, { face }: Style): string {
  let out = '';
  for (const character of held(text.normalize('NFC'))) {
    const point = character.codePointAt(0) ?? 0;
    out += character === '\n' || has(doc, face, point) || isFurther(point) ? character : MISSING;
  }
  return out;
}

/** Has this face a glyph for this letter? The fonts never change, and so neither does the answer. */
function has(doc: PDFKit.PDFDocument, face: Face, point: number): boolean {
  const known = KNOWN[face].get(point);
  if (known !== undefined) return known;
  doc.font(FONT_FILES[face]);
  const found = (doc as unknown as { _font: { font: Glyphs } })._font.font.hasGlyphForCodePoint(point);
  KNOWN[face].set(point, found);
  return found;
}

function hasAll(doc: PDFKit.PDFDocument, text: string, face: Face): boolean {
  for (const letter of text) if (!has(doc, face, letter.codePointAt(0) ?? 0)) return false;
  return true;
}

const KNOWN: Record<Face, Map<number, boolean>> = {
  regular: new Map(),
  bold: new Map(),
  condensed: new Map(),
  'condensed bold': new Map(),
};

interface Glyphs {
  hasGlyphForCodePoint(point: number): boolean;
}

/** A text in pieces that the face draws, and such that further fonts do. */
function inFaces(doc: PDFKit.PDFDocument, text: string, face: Face): { text: string; further: boolean }[] {
  if (hasAll(doc, text, face)) return [{ text, further: false }];
  const pieces: { text: string; further: boolean }[] = [];
  const add = (piece: string, further: boolean) => {
    const last = pieces.at(-1);
    if (last && last.further === further) last.text += piece;
    else pieces.push({ text: piece, further });
  };
  const furtherHas = (letter: string) => isFurther(letter.codePointAt(0) ?? 0);
  for (const { segment } of letters.segment(text)) {
    // A letter with its marks is of one font, where one has them all.
    if (hasAll(doc, segment, face)) add(segment, false);
    else if ([...segment].every(furtherHas)) add(segment, true);
    else for (const letter of segment) add(letter, !hasAll(doc, letter, face) && furtherHas(letter));
  }
  return pieces;
}

const UNITS = [...new Set(Object.values(QUANTITY_KINDS).flatMap(({ shown }) => shown.map(unitSymbol)))]
  .filter((symbol) => symbol !== '')
  .map((symbol) => symbol.replace(/[.*+?^${}()|[\]\\/]/g, '\\$&'))
  .sort((a, b) => b.length - a.length);
const BEFORE_UNIT = new RegExp(`(?<=\\d) (?=(?:${UNITS.join('|')})(?![\\p{L}\\d])|±)`, 'gu');

/** Groups of digits, a number and its unit, and the two sides of ± stay on one line. */
function held(text: string): string {
  return text
    .replace(/\t/g, ' ')
    .replace(/(?<=\d) (?=\d{3}(?!\d))/g, NO_BREAK)
    .replace(BEFORE_UNIT, NO_BREAK)
    .replace(/(?<=±) (?=\d)/g, NO_BREAK)
    .replace(/\b([rR]ev\.|k|U|n|run|Versuch) (?==? ?\d)/g, `$1${NO_BREAK}`)
    .replace(/(?<=[=≥≤]) (?=\d)/g, NO_BREAK);
}

/** Stands for a letter that the fonts do not have. */
export const MISSING = '\ufffd';

/** Does a text hold letters that this face cannot show? */
export function holdsMissing(doc: PDFKit.PDFDocument, text: string, style: Style): boolean {
  return printable(doc, text, style).includes(MISSING);
}

/** How wide this text is in this style, in points. */
export function widthOf(doc: PDFKit.PDFDocument, text: string, { face, size }: Pick<Style, 'face' | 'size'>): number {
  const key = `${face} ${text}`;
  let thousand = WIDTHS.get(key);
  if (thousand === undefined) {
    thousand = inFaces(doc, text, face).reduce((sum, piece) => sum + widthAt1000(doc, piece, face), 0);
    if (WIDTHS.size >= MOST_WIDTHS) WIDTHS.clear();
    WIDTHS.set(key, thousand);
  }
  return thousand * (size / 1000);
}

/** At a size of 1000 points; a width is in proportion to its size. */
function widthAt1000(doc: PDFKit.PDFDocument, piece: { text: string; further: boolean }, face: Face): number {
  if (piece.further) return 1000 * shaped(piece.text, isBold(face)).width;
  return doc.font(FONT_FILES[face]).fontSize(1000).widthOfString(piece.text);
}

/** Words and numbers recur within a document and from one to the next; measuring them was nearly half of a report's time. */
const WIDTHS = new Map<string, number>();
const MOST_WIDTHS = 50_000;

/** The text in lines no wider than this; words longer than a line are cut between letters. */
export function linesOf(doc: PDFKit.PDFDocument, text: string, style: Style, width: number): string[] {
  return printable(doc, text, style)
    .split('\n')
    .flatMap((paragraph) => filled(doc, paragraph, style, width + ROUNDING));
}

/** Widths that were added up and shared out again may miss the word they were made for by a rounding error. */
const ROUNDING = 0.01;

function filled(doc: PDFKit.PDFDocument, paragraph: string, style: Style, width: number): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of paragraph.split(' ').flatMap((one) => cut(doc, one, style, width))) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (line !== '' && widthOf(doc, longer, style) > width) {
      lines.push(line);
      line = word;
    } else line = longer;
  }
  return [...lines, line];
}

/** A word in pieces that fit the width: whole where it does, after hyphens and slashes where that is enough. */
function cut(doc: PDFKit.PDFDocument, word: string, style: Style, width: number): string[] {
  if (widthOf(doc, word, style) <= width) return [word];
  const pieces: string[] = [];
  let piece = '';
  for (const { segment } of letters.segment(word)) {
    if (piece !== '' && widthOf(doc, piece + segment, style) > width) {
      const hyphen = Math.max(piece.lastIndexOf('-'), piece.lastIndexOf('/'), piece.lastIndexOf(NO_BREAK)) + 1;
      const end = hyphen > piece.length / 2 ? hyphen : piece.length;
      pieces.push(piece.slice(0, end));
      piece = piece.slice(end);
    }
    piece += segment;
  }
  return [...pieces, piece];
}

const letters = new Intl.Segmenter('en', { granularity: 'grapheme' });

/** One line of text, its upper edge at `y`; already fitted to its place. */
export function drawLine(doc: PDFKit.PDFDocument, line: string, at: { x: number; y: number }, style: Style): void {
  drawOnBaseline(doc, line, { x: at.x, y: at.y + (style.leading + style.size * CAP_HEIGHT) / 2 }, style);
}

/** One line of text, its base line at `y`. */
export function drawOnBaseline(
  doc: PDFKit.PDFDocument,
  line: string,
  { x, y }: { x: number; y: number },
  { face, size, colour }: Style,
): void {
  const space = widthOf(doc, ' ', { face, size });
  let left = x;
  for (const { text, rightToLeft } of visualRuns(line)) {
    // Spaces at the ends of a run would be dropped by the library.
    const [, before = '', words = '', after = ''] = /^( *)(.*?)( *)$/s.exec(text) ?? [];
    const [ahead, behind] = rightToLeft ? [after, before] : [before, after];
    left += ahead.length * space;
    if (words !== '') {
      // The font turns a run that is written from right to left as a whole, so its words are held together.
      const run = rightToLeft ? words.replaceAll(' ', NO_BREAK) : words;
      for (const piece of inFaces(doc, run, face)) {
        if (piece.further) drawOutlines(doc, piece.text, { x: left, y }, { face, size, colour });
        else {
          doc.font(FONT_FILES[face]).fontSize(size).fillColor(colour);
          doc.text(piece.text, left, y, { lineBreak: false, baseline: 'alphabetic' });
        }
        left += widthOf(doc, piece.text, { face, size });
      }
    }
    left += behind.length * space;
  }
}

/** Height of a capital in DejaVu Sans, as a share of the size. */
const CAP_HEIGHT = 0.729;
