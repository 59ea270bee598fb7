import { QUANTITY_KINDS, unitSymbol } from '@breakbook/units';
import { FONT_FILES, type Style } from './type.js';
import { visualRuns } from './visual-runs.js';

const NO_BREAK = '\u00a0';

/**
 * Text as it can be printed: composed letters, numbers and their units held together, and a sign of its own for
 * letters that the embedded fonts do not have. The attached data keep every letter.
 */
export function printable(doc: PDFKit.PDFDocument, text: string, { face }: Style): string {
  doc.font(FONT_FILES[face]);
  const { font } = (doc as unknown as { _font: { font: Glyphs } })._font;
  let out = '';
  for (const character of held(text.normalize('NFC'))) {
    const known = character === '\n' || font.hasGlyphForCodePoint(character.codePointAt(0) ?? 0);
    out += known ? character : MISSING;
  }
  return out;
}

interface Glyphs {
  hasGlyphForCodePoint(point: number): boolean;
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
  return doc.font(FONT_FILES[face]).fontSize(size).widthOfString(text);
}

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
      doc.font(FONT_FILES[face]).fontSize(size).fillColor(colour);
      doc.text(run, left, y, { lineBreak: false, baseline: 'alphabetic' });
      left += widthOf(doc, run, { face, size });
    }
    left += behind.length * space;
  }
}

/** Height of a capital in DejaVu Sans, as a share of the size. */
const CAP_HEIGHT = 0.729;
