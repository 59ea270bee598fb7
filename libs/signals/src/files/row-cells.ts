import { type ProblemCode, shown } from '@breakbook/lab';
import { cellsOf } from './cells.js';
import type { Dialect } from './dialect.js';
import { controlFault, type Fault, textOfLine } from './line-bytes.js';
import type { Said } from './problem-list.js';

/** What the rows of a file are held against. */
export interface RowExpectation {
  /** Cells per row. */
  width: number;
  /** Index of the time column, -1 where the header has none. */
  time: number;
  /** Index of the column with the time of day, where it stands beside its date; -1 otherwise. */
  clock: number;
  names: readonly string[];
  dialect: Dialect;
  /** What each column may say where it has no reading; nothing where it must always have one. */
  noReading: readonly (readonly string[])[];
  looksLikeHeader: (cells: readonly string[]) => boolean;
  bounds: { rows: number; lineBytes: number };
}

/** What of that the cells of one row are held against. */
export interface CellExpectation extends Pick<RowExpectation, 'width' | 'looksLikeHeader'> {
  dialect: Pick<Dialect, 'comment' | 'delimiter' | 'decimal'>;
  bounds: Pick<RowExpectation['bounds'], 'lineBytes'>;
}

/** The cells of a line among the data, as many as the header has; or why it is no row. */
export function cellsOfRow(
  line: Uint8Array,
  expected: CellExpectation,
): { cells: string[] } | (Fault & { column?: number; short?: boolean }) {
  const read = textOfLine(line);
  if ('code' in read) return read;
  if (line.length > expected.bounds.lineBytes)
    return { code: 'csv.line-too-long', said: tooLong(expected.bounds.lineBytes) };
  const { text } = read;
  const { dialect } = expected;
  const control = controlFault(text);
  if (control) return control;
  if (text.startsWith(dialect.comment)) return secondRun(text);

  const split = cellsOf(text, dialect.delimiter.sign);
  if ('code' in split) return split;
  const { cells } = split;
  if (expected.looksLikeHeader(cells)) return secondRun(text);
  if (cells.length === expected.width) return { cells };

  if (otherDelimiters(dialect).test(text)) return otherDelimiter(text, expected.width, dialect.delimiter.words);
  return { ...unlikeWidth(text, cells.length, expected.width), short: cells.length < expected.width };
}

export function tooLong(most: number): Said {
  return {
    sentence: `this line is longer than ${most} bytes.`,
    action: 'Check the line ends of the export; a run file has one row of numbers per line.',
  };
}

/** The words for a last row that lacks its end. */
export function cutShort(said: Said): Said {
  return {
    ...said,
    sentence: `the file ends in the middle of this row: ${said.sentence}`,
    action: 'Export the whole record again. If the logger stopped here, the bytes stay kept unread.',
  };
}

function secondRun(text: string): Fault {
  return fault('header.duplicate-row', {
    sentence: 'a second header or metadata line stands among the data, as where two runs are in one file.',
    found: text,
    expected: 'rows of numbers to the end of the file',
    action: 'Send each run as a file of its own.',
  });
}

/** What would part cells in another file than this. */
export function otherDelimiters({ delimiter, decimal }: Pick<Dialect, 'delimiter' | 'decimal'>): RegExp {
  const others = [';', '\t', '|', ','].filter((one) => one !== delimiter.sign && one !== decimal.sign);
  return new RegExp(`[${others.join('')}]`);
}

function otherDelimiter(text: string, width: number, words: string): Fault {
  return fault('csv.delimiter', {
    sentence: `this row parts its cells by something else than ${words}.`,
    found: text,
    expected: `${width} cells parted by ${words}`,
    action: `Export the whole file with ${words} between cells.`,
  });
}

function unlikeWidth(text: string, found: number, width: number): Fault {
  return fault('csv.row-width', {
    sentence: `this row has ${found} cells and the header ${width}; cells are never shifted or filled in.`,
    found: shown(text),
    expected: `${width} cells`,
    action:
      found >= 2 * width - 1 && found <= 2 * width && width > 1
        ? 'If the decimal sign of this export is a comma, export with a point.'
        : 'Look at this row in the record and export again.',
  });
}

function fault(code: ProblemCode, said: Said): Fault {
  return { code, said };
}
