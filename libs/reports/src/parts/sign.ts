import { markToCommand, type Outcome, outcomeInk, outcomeSign, PALETTES, type PathCommand } from '@breakbook/figures';
import { decorate, type Pen } from './pieces.js';
import type { Style } from './type.js';

/** Room for a sign before its word. */
export const SIGN_SPACE = 13;

/** The sign of an outcome before its word. The word tells it, so the sign is decoration to a reader of tags. */
export function drawSign(
  { doc }: Pick<Pen, 'doc'>,
  outcome: Outcome,
  { x, y, style, space = SIGN_SPACE }: { x: number; y: number; style: Style; space?: number },
): void {
  const radius = style.size * 0.36;
  const at = [x + space / 2 - 1.5, y + style.leading / 2] as const;
  decorate(doc, () => {
    for (const mark of outcomeSign(outcome, { at, radius })) {
      const command = markToCommand(mark, PALETTES.print);
      if (command.draw === 'path') drawPath(doc, command);
    }
  });
}

/** The style of an outcome's word. */
export function outcomeStyle(outcome: Outcome, style: Style): Style {
  return { ...style, colour: PALETTES.print[outcomeInk(outcome)] };
}

/** One path of a picture. */
export function drawPath(doc: PDFKit.PDFDocument, { d, fill, stroke }: PathCommand): void {
  doc.save();
  if (stroke) {
    doc.lineWidth(stroke.width).strokeColor(stroke.colour).lineJoin('round');
    if (stroke.dash) doc.dash(stroke.dash[0] ?? 1, { space: stroke.dash[1] ?? stroke.dash[0] ?? 1 });
  }
  if (fill) doc.fillColor(fill);
  doc.path(d);
  if (fill && stroke) doc.fillAndStroke();
  else if (fill) doc.fill();
  else doc.stroke();
  doc.restore();
}
