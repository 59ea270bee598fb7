import { shaped } from './further-scripts.js';
import { FONT_FILES, isBold, type Style } from './type.js';

export const NO_BREAK = '\u00a0';

/** Letters of a further font as outlines, with an unseen blank that carries their text for whoever copies or hears it. */
export function drawOutlines(
  doc: PDFKit.PDFDocument,
  text: string,
  { x, y }: { x: number; y: number },
  { face, size, colour }: Pick<Style, 'face' | 'size' | 'colour'>,
): void {
  const { outlines, fatter, width } = shaped(text, isBold(face));
  const { height, fonts } = doc.page as unknown as { height: number; fonts: Record<string, unknown> };
  doc.save();
  // Upwards, as the text of a page runs: readers take the place of the text from where its mark ends.
  doc.transform(1, 0, 0, -1, 0, height);
  doc.markContent('Span', { actual: text });
  for (const { path, x: right, y: up, unitsPerEm } of outlines) {
    if (path === '') continue;
    const scale = size / unitsPerEm;
    doc.save();
    doc.translate(x + right * size, height - y + up * size).scale(scale, scale);
    doc.path(path);
    if (fatter > 0)
      doc
        .lineWidth(fatter * unitsPerEm)
        .lineJoin('miter')
        .fillAndStroke(colour, colour);
    else doc.fill(colour);
    doc.restore();
  }
  const blank = doc.font(FONT_FILES[face]).fontSize(size).widthOfString(NO_BREAK);
  const font = (doc as unknown as { _font: EmbeddedFont })._font;
  fonts[font.id] ??= font.ref();
  const [codes] = font.encode(NO_BREAK, []);
  const points = (value: number) => value.toFixed(3);
  doc.addContent(
    `BT 1 0 0 1 ${points(x)} ${points(height - y)} Tm /${font.id} ${size} Tf ${points(width * size - blank)} Tc <${codes.join('')}> Tj 0 Tc ET`,
  );
  doc.endMarkedContent();
  doc.restore();
}

/** What the library has of a font, and its types do not name. */
interface EmbeddedFont {
  id: string;
  ref(): unknown;
  encode(text: string, features: string[]): [codes: string[], positions: unknown[]];
}
