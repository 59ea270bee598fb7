/** Sizes of a page in points. */
export interface Paper {
  name: 'A4' | 'Letter';
  width: number;
  height: number;
  left: number;
  right: number;
  top: number;
  /** Where the body of a page ends; the foot stands below it. */
  bottom: number;
}

const MARGIN = (18 / 25.4) * 72;
const FOOT = 16;

export const PAPERS: Record<Paper['name'], Paper> = {
  A4: paper('A4', (210 / 25.4) * 72, (297 / 25.4) * 72),
  Letter: paper('Letter', 612, 792),
};

function paper(name: Paper['name'], width: number, height: number): Paper {
  return { name, width, height, left: MARGIN, right: width - MARGIN, top: MARGIN, bottom: height - MARGIN - FOOT };
}

export function bodyWidth({ left, right }: Paper): number {
  return right - left;
}

export function bodyHeight({ top, bottom }: Paper): number {
  return bottom - top;
}
