import { createRequire } from 'node:module';
import path from 'node:path';
import { PALETTES } from '@breakbook/figures';

export type Face = 'regular' | 'bold' | 'condensed' | 'condensed bold';

export function isBold(face: Face): boolean {
  return face === 'bold' || face === 'condensed bold';
}

/** How a run of text is set. Lengths in points. */
export interface Style {
  face: Face;
  size: number;
  /** From base line to base line. */
  leading: number;
  colour: string;
}

const { ink, muted, petrol } = PALETTES.print;

/** The sizes of the sheet: 18 for its name, 13 for what it came to, 11.5 for a question, 9 and 8 for the rest. */
export const TYPE = {
  name: { face: 'bold', size: 18, leading: 22, colour: ink },
  subject: { face: 'regular', size: 11, leading: 15, colour: ink },
  outcome: { face: 'bold', size: 13, leading: 17, colour: ink },
  heading: { face: 'bold', size: 11.5, leading: 15, colour: ink },
  subheading: { face: 'bold', size: 9, leading: 12, colour: ink },
  body: { face: 'regular', size: 9, leading: 12.6, colour: ink },
  claim: { face: 'regular', size: 9.5, leading: 13.4, colour: ink },
  note: { face: 'condensed', size: 8, leading: 10.6, colour: muted },
  label: { face: 'condensed', size: 7.5, leading: 10, colour: muted },
  cell: { face: 'condensed', size: 8, leading: 10.2, colour: ink },
  strongCell: { face: 'condensed bold', size: 8, leading: 10.2, colour: ink },
  underCell: { face: 'condensed', size: 7.2, leading: 9, colour: muted },
  columnTitle: { face: 'condensed bold', size: 7.5, leading: 9.4, colour: ink },
  caption: { face: 'condensed', size: 8, leading: 10.6, colour: ink },
  foot: { face: 'condensed', size: 7.5, leading: 9.5, colour: muted },
  action: { face: 'regular', size: 9, leading: 12.6, colour: petrol },
} as const satisfies Record<string, Style>;

/** The same on a sheet that must stand on one page. No letter is smaller than 7 points. */
const COMPACT_TYPE: Record<keyof typeof TYPE, Style> = {
  ...TYPE,
  name: { ...TYPE.name, size: 14, leading: 17 },
  subject: { ...TYPE.subject, size: 9.5, leading: 12 },
  outcome: { ...TYPE.outcome, size: 10.5, leading: 13.5 },
  heading: { ...TYPE.heading, size: 9.5, leading: 12 },
  subheading: { ...TYPE.subheading, size: 8, leading: 10 },
  body: { ...TYPE.body, face: 'condensed', size: 8, leading: 10 },
  claim: { ...TYPE.claim, size: 8.2, leading: 10.6 },
  note: { ...TYPE.note, size: 7, leading: 8.7 },
  label: { ...TYPE.label, size: 7, leading: 8.6 },
  caption: { ...TYPE.caption, size: 7, leading: 8.7 },
  action: { ...TYPE.action, size: 8, leading: 10.4 },
};

/** The styles of a sheet. */
export function typeOf({ compact }: { compact?: boolean | undefined }): Record<keyof typeof TYPE, Style> {
  return compact ? COMPACT_TYPE : TYPE;
}

const folder = path.join(path.dirname(createRequire(import.meta.url).resolve('dejavu-fonts-ttf/package.json')), 'ttf');

/**
 * Where the font of each face lies on disk. Fonts are named to the library by this path: under a name of their own it
 * would read the file again for every word.
 */
export const FONT_FILES: Record<Face, string> = {
  regular: path.join(folder, 'DejaVuSans.ttf'),
  bold: path.join(folder, 'DejaVuSans-Bold.ttf'),
  condensed: path.join(folder, 'DejaVuSansCondensed.ttf'),
  'condensed bold': path.join(folder, 'DejaVuSansCondensed-Bold.ttf'),
};
