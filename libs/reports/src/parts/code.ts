import { PALETTES } from '@breakbook/figures';
import bwipjs from 'bwip-js/node';

/** Codes that cameras and scanners read: Data Matrix (ISO/IEC 16022) and QR (ISO/IEC 18004). */
export type CodeForm = 'data matrix' | 'qr';

/** A code as its modules, row by row, and how many light modules must stay clear around it. */
export interface CodeModules {
  size: number;
  dark: readonly (readonly boolean[])[];
  /** ISO/IEC 16022 asks for one module, ISO/IEC 18004 for four (from memory). */
  quiet: number;
}

const FORMS = { 'data matrix': { bcid: 'datamatrix', quiet: 1 }, qr: { bcid: 'qrcode', quiet: 4 } } as const;

/** The square code of a text. */
export function codeOf(form: CodeForm, text: string): CodeModules {
  const { bcid, quiet } = FORMS[form];
  const [made] = bwipjs.raw({ bcid, text });
  if (!made || !('pixs' in made)) throw new Error(`No ${form} code can be made of "${text}".`);
  const { pixs, pixx: size } = made;
  return {
    size,
    quiet,
    dark: Array.from({ length: size }, (_, row) =>
      Array.from({ length: size }, (_unused, column) => pixs[row * size + column] === 1),
    ),
  };
}

/** Draws a code with its quiet zone in a square of this side: neighbouring dark modules of a row are one rectangle, so that no seam shows. */
export function drawCode(
  doc: PDFKit.PDFDocument,
  { size, dark, quiet }: CodeModules,
  { x, y, side }: { x: number; y: number; side: number },
): void {
  const module = side / (size + 2 * quiet);
  doc.save().fillColor(PALETTES.print.ink);
  for (const [row, modules] of dark.entries())
    for (let column = 0; column < size; column += 1) {
      if (!modules[column]) continue;
      const from = column;
      while (modules[column + 1]) column += 1;
      doc.rect(x + (quiet + from) * module, y + (quiet + row) * module, (column - from + 1) * module, module);
    }
  doc.fill().restore();
}
