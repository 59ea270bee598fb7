import { cellsOf } from './cells.js';
import {
  type Column,
  type HeaderCell,
  type HeaderExpectation,
  looksLikeHeader,
  nameAndUnit,
  readHeader,
  unitInOwnCell,
} from './header.js';
import { textOfLine } from './line-bytes.js';
import { Metadata } from './metadata.js';
import { readNumber } from './number.js';
import type { ProblemList } from './problem-list.js';
import { otherDelimiters } from './row-cells.js';

/** What stands above the data: metadata lines, then the header. Takes a file's first lines one by one. */
export class Head {
  readonly metadata: Metadata;
  columns: Column[] = [];
  /** Cells the header has, well named or not: what each row must have. */
  width = 0;
  headerLine = 0;
  /** Was anything but blanks seen? */
  inked = false;
  private unitless: { line: number; cells: HeaderCell[] } | undefined;
  private blankLine: number | undefined;
  private preamble = 0;

  constructor(
    private readonly expectation: HeaderExpectation,
    private readonly mostColumns: number,
    private readonly problems: ProblemList,
    private readonly flags: ProblemList,
  ) {
    this.metadata = new Metadata(expectation.dialect.comment);
  }

  /** Takes one line. `header` when it was the header; `row` when the header stood before it and this is data. */
  take(bytes: Uint8Array, line: number): 'more' | 'header' | 'row' {
    const read = textOfLine(bytes);
    if ('code' in read) {
      this.inked = true;
      this.problems.add(read.code, { line }, () => read.said);
      return 'more';
    }
    const text = read.text;
    const { dialect } = this.expectation;
    if (line <= dialect.preamble) {
      this.inked ||= text.trim() !== '';
      return 'more';
    }
    if (text.trim() === '') {
      this.blankLine ??= line;
      return 'more';
    }
    this.inked = true;
    if (this.unitless) return this.afterUnitless(text, line);

    if (this.blankLine !== undefined) {
      this.noHeaderHere(this.blankLine, 'a blank line stands above the header.', '');
      this.blankLine = undefined;
    }
    if (text.startsWith(dialect.comment)) {
      if (dialect.hasMetadata) this.metadata.take(text, line, this.problems);
      return 'more';
    }
    return dialect.header.kind === 'none' ? this.headerless(dialect.header.columns, line) : this.header(text, line);
  }

  /** At the end of a file that never came to its data. */
  end(): void {
    if (this.expectation.dialect.header.kind === 'none')
      this.problems.add('header.no-data', {}, () => ({
        sentence: 'no row of numbers stands in the file.',
        action: 'Export the whole record and send the file again.',
      }));
    else if (this.unitless) this.settle(this.unitless.cells, this.unitless.line);
    else if (this.headerLine === 0 && this.preamble === 0)
      this.problems.add('header.missing', {}, () => ({
        sentence: 'the file ends without a header.',
        expected: 'a line of names with units, such as: time [s],rim pressure [kPa]',
        action: 'Export the whole record and send the file again.',
      }));
  }

  /** A file without a header: its columns are those of the layout, and this line is the first row. */
  private headerless(columns: readonly { column: string; unit?: string | undefined }[], line: number): 'row' {
    const cells = columns.map(({ column, unit }) => ({
      name: column.normalize('NFC'),
      ...(unit === undefined ? {} : { unit }),
      written: column,
    }));
    this.settle(cells, line - 1, { line: 0 });
    return 'row';
  }

  private header(text: string, line: number): 'more' | 'header' {
    const { dialect } = this.expectation;
    const { words, sign } = dialect.delimiter;
    if (/^\s*sep=/i.test(text))
      this.problems.refuse(
        'csv.delimiter',
        { line },
        {
          sentence: `a "sep=" line stands here; this layout parts cells by ${words}.`,
          found: text,
          action: `Leave the line out and export with ${words}, or have a layout that passes over it read the unread file.`,
        },
      );
    const split = cellsOf(text, sign);
    if ('code' in split) this.problems.refuse(split.code, { line, column: split.column }, split.said);
    const { cells } = split;

    if (cells.length === 1 && otherDelimiters(dialect).test(text))
      this.problems.refuse(
        'csv.delimiter',
        { line },
        {
          sentence: `this line parts its cells by something else than ${words}.`,
          found: text,
          expected: `cells parted by ${words}`,
          action: `Export with ${words} between cells and send the file again, or have a layout that names the delimiter read the unread file.`,
        },
      );
    if (cells.length > this.mostColumns)
      this.problems.refuse(
        'csv.too-many-columns',
        { line },
        {
          sentence: `the header has ${cells.length} columns.`,
          expected: `at most ${this.mostColumns} columns`,
          action: 'Export only the channels of this run.',
        },
      );
    if (cells.every((cell) => 'value' in readNumber(cell, dialect)))
      this.problems.refuse(
        'header.missing',
        { line },
        {
          sentence: 'numbers begin here, and no header stands above them.',
          found: text,
          expected: 'a line of names with units, such as: time [s],rim pressure [kPa]',
          action: 'Export with a header line and send the file again.',
        },
      );
    if (!looksLikeHeader(cells, this.expectation)) {
      this.noHeaderHere(line, 'this line is neither metadata nor the header.', text);
      return 'more';
    }

    const named = cells.map((cell) => nameAndUnit(cell, dialect));
    if (named.every(({ unit }) => unit === undefined)) {
      // Whether the units are missing or stand in a row of their own is told by the next line.
      this.unitless = { line, cells: named };
      return 'more';
    }
    this.settle(named, line);
    return 'header';
  }

  private afterUnitless(text: string, at: number): 'header' | 'row' {
    const { line, cells } = this.unitless as { line: number; cells: HeaderCell[] };
    const { dialect } = this.expectation;
    this.unitless = undefined;
    if (dialect.header.kind === 'units in the next row') return this.unitRow(cells, text, at);
    const next = text.split(dialect.delimiter.sign);
    if (next.some((cell) => 'value' in readNumber(cell, dialect))) {
      this.settle(cells, line);
      return 'row';
    }
    this.problems.add('header.missing', { line: line + 1 }, () => ({
      sentence: 'this looks like units in a row of their own.',
      found: text,
      expected: 'units in the header, each in brackets after its name: time [s],rim pressure [kPa]',
      action: 'Write the units into the header, or have a layout that says which row holds them.',
    }));
    this.headerLine = line + 1;
    this.width = cells.length;
    return 'header';
  }

  private unitRow(cells: readonly HeaderCell[], text: string, line: number): 'header' {
    const split = cellsOf(text, this.expectation.dialect.delimiter.sign);
    if ('code' in split) this.problems.refuse(split.code, { line, column: split.column }, split.said);
    const units = split.cells.map(unitInOwnCell);
    if (units.length !== cells.length)
      this.problems.refuse(
        'header.missing',
        { line },
        {
          sentence: `this row of units has ${units.length} cells and the row of names above it ${cells.length}.`,
          found: text,
          expected: `${cells.length} units`,
          action: 'Export the units of every column, or have a layout without a row of units read the unread file.',
        },
      );
    const both = cells.map(({ name, written }, index) => ({ name, unit: units[index] ?? '', written }));
    this.settle(both, line);
    return 'header';
  }

  private settle(cells: readonly HeaderCell[], line: number, at: { line: number } = { line }): void {
    this.headerLine = line;
    this.width = cells.length;
    this.columns = readHeader(cells, at.line, this.expectation, this.problems, this.flags);
  }

  private noHeaderHere(line: number, sentence: string, text: string): void {
    this.preamble++;
    this.problems.add('header.missing', { line }, () => ({
      sentence,
      found: text,
      expected: `${this.expectation.dialect.comment} key: value, or the header`,
      action: 'Leave the line out, write it as metadata, or have a layout that passes over it read the unread file.',
    }));
  }
}
