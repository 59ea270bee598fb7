import { createRequire } from 'node:module';
import path from 'node:path';

/**
 * Letters that the faces of the sheet do not have, from further fonts: Chinese, Japanese and Korean, Devanagari, Thai. They
 * come in packed pieces, which no PDF can hold as they are, so that they are drawn as outlines with their text beside.
 */
export interface ShapedText {
  /** In ems. */
  width: number;
  /** Each outline as an SVG path in units of the font, y upwards, with its place. */
  outlines: { path: string; x: number; y: number; unitsPerEm: number }[];
  /** How far each outline is drawn fatter to stand beside the faces of the sheet, in ems. */
  fatter: number;
}

const require = createRequire(import.meta.url);

/** What is used of the library's fonts. */
interface Font {
  unitsPerEm: number;
  'OS/2': { usWeightClass: number };
  hasGlyphForCodePoint(point: number): boolean;
  layout(text: string): {
    glyphs: { advanceWidth: number; path: { toSVG(): string } }[];
    positions: { xOffset: number; yOffset: number }[];
  };
}
const fontkit = require('fontkit') as { openSync(file: string): Font };

const PACKAGES = ['noto-sans-sc', 'noto-sans-kr', 'noto-sans-devanagari', 'noto-sans-thai'] as const;

interface Piece {
  file: string;
  ranges: [first: number, last: number][];
  font?: Font;
}

let pieces: Piece[] | undefined;

/** The pieces of all further fonts with the code points that each is for, as their packages list them. */
function allPieces(): Piece[] {
  pieces ??= PACKAGES.flatMap((name) => {
    const list = `@fontsource-variable/${name}/unicode.json`;
    const folder = path.dirname(require.resolve(list));
    const listed = require(list) as Record<string, string>;
    return Object.entries(listed)
      .filter(([piece]) => !piece.startsWith('latin'))
      .map(([piece, ranges]) => ({
        file: path.join(folder, 'files', `${name}-${piece.replace(/[[\]]/g, '')}-wght-normal.woff2`),
        ranges: ranges.split(',').map((range): [number, number] => {
          const [first = 0, last = first] = range
            .slice(2)
            .split('-')
            .map((point) => Number.parseInt(point, 16));
          return [first, last];
        }),
      }));
  });
  return pieces;
}

const found = new Map<number, Font | null>();

/** The font that has this letter; none where no further one has. */
function fontFor(point: number): Font | null {
  const known = found.get(point);
  if (known !== undefined) return known;
  for (const piece of allPieces()) {
    if (!piece.ranges.some(([first, last]) => point >= first && point <= last)) continue;
    piece.font ??= fontkit.openSync(piece.file);
    if (piece.font.hasGlyphForCodePoint(point)) {
      found.set(point, piece.font);
      return piece.font;
    }
  }
  found.set(point, null);
  return null;
}

export function isFurther(point: number): boolean {
  return fontFor(point) !== null;
}

/** Weight of the faces of the sheet, and of their bold ones, as fonts count it; ems of stem that a hundred of it are. */
const WEIGHT = { regular: 400, bold: 700 };
const STEM = 0.009;

/** A text of further letters with the shapes that they have beside each other. */
export function shaped(text: string, bold: boolean): ShapedText {
  const outlines: ShapedText['outlines'] = [];
  let [width, thinnest] = [0, 1000];
  for (const { font, letters } of inFonts(text)) {
    const { glyphs, positions } = font.layout(letters);
    const em = font.unitsPerEm;
    thinnest = Math.min(thinnest, font['OS/2'].usWeightClass);
    glyphs.forEach((glyph, index) => {
      const { xOffset = 0, yOffset = 0 } = positions[index] ?? {};
      outlines.push({ path: glyph.path.toSVG(), x: width + xOffset / em, y: yOffset / em, unitsPerEm: em });
      // The library cannot tell how far a weight that is not drawn moves the next letter.
      width += glyph.advanceWidth / em;
    });
  }
  const fatter = (Math.max(0, WEIGHT[bold ? 'bold' : 'regular'] - thinnest) / 100) * STEM;
  return { width, outlines, fatter };
}

function inFonts(text: string): { font: Font; letters: string }[] {
  const runs: { font: Font; letters: string }[] = [];
  for (const letter of text) {
    const font = fontFor(letter.codePointAt(0) ?? 0);
    const last = runs.at(-1);
    if (!font) throw new Error(`No further font has the letter "${letter}".`);
    if (last?.font === font) last.letters += letter;
    else runs.push({ font, letters: letter });
  }
  return runs;
}
