import type { Outcome, Scene } from '@breakbook/figures';
import type { Language } from '@breakbook/lab';

/**
 * A document before it has pages: what is said, in reading order. Documents make blocks; parts measure, break and draw
 * them. Nothing here knows a page.
 */
export interface DocumentSheet {
  head: HeadStrip;
  sections: Section[];
  foot: Foot;
  /** English where left out. */
  words?: SheetWords;
  /** In smaller letters and closer together, for what must stand on one page. */
  compact?: true;
  /** The last line, such as "End of report LTR-2407-1". */
  endMark: string;
}

/** What the parts themselves say, in the language of the document. */
export interface SheetWords {
  language: Language;
  page: (page: number, of: number) => string;
  stateAndNext: (state: string, next: string) => string;
  missing: (sign: string) => string;
  signatureOf: (by: string) => string;
  /** Of what is attached. */
  content: string;
  signature: string;
  record: string;
  raw: string;
}

export interface Section {
  heading: string;
  blocks: Block[];
}

export type Block = Subheading | Paragraph | Listing | Facts | Table | FigureBlock | FigureBeside | Signatures | Box;

export interface HeadStrip {
  issuer: { name: string; address: string };
  kind: string;
  subject: string;
  number: string;
  /** Outcome or state in words, with the sign of an outcome where it is one; `word` where it is not said as it is stored. */
  outcome: { outcome: Outcome; word?: string; sentence: string };
  state: string;
  /** What happens next and whose turn it is. */
  next: string;
  /** A banner above everything, such as what this document replaces. */
  banner?: string;
  facts: Fact[];
}

export interface Foot {
  /** Number, revision and state of the document. */
  identity: string;
  notice: string;
}

export interface Subheading {
  block: 'subheading';
  text: string;
}

export interface Paragraph {
  block: 'paragraph';
  text: string;
  /** `claim` is a sentence the reader came for; `note` explains in small print. */
  tone?: 'plain' | 'claim' | 'note';
  sign?: Outcome;
  /** Its end on one page with what follows. */
  keep?: true;
}

export interface Listing {
  block: 'list';
  items: string[];
}

/** A title and paragraphs within lines, apart from everything else. */
export interface Box {
  block: 'box';
  title: string;
  paragraphs: string[];
}

export interface Fact {
  label: string;
  value: string;
}

/** Labels with their values, in columns side by side. */
export interface Facts {
  block: 'facts';
  facts: Fact[];
  columns: 1 | 2 | 3 | 4;
  /** On one page with each other and with what follows. */
  together?: true;
}

export interface Table {
  block: 'table';
  /** What the table holds, said above it. */
  title?: string;
  columns: Column[];
  rows: Cell[][];
  /** Where there is no row: why, such as "none". */
  empty: string;
}

export interface Column {
  title: string;
  /** `number` aligns at the decimal sign. */
  align?: 'left' | 'number';
}

/** Text, or text with a sign before it and a quieter line under it. */
export type Cell = string | { text: string; sign?: Outcome; under?: string; strong?: boolean };

export interface FigureBlock {
  block: 'figure';
  scene: Scene;
}

/** A narrow picture with facts at its right. */
export interface FigureBeside {
  block: 'figure beside';
  scene: Scene;
  facts: Fact[];
  columns: 1 | 2;
}

/** Who signs, at the right of a code that a camera reads, where there is one. */
export interface Signatures {
  block: 'signatures';
  signatures: SignatureLine[];
  code?: { form: 'data matrix' | 'qr'; text: string; alt: string };
}

export interface SignatureLine {
  /** Printed meaning: prepared, reviewed, authorised. */
  meaning: string;
  name: string;
  role: string;
  /** When, or "not signed". */
  signed: string;
}
