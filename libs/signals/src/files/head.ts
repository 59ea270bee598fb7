import { cellsOf } from './cells.js';
import { type Column, type HeaderExpectation, looksLikeHeader, nameAndUnit, readHeader } from './header.js';
import { textOfLine } from './line-bytes.js';
import { Metadata } from './metadata.js';
import { readNumber } from './number.js';
import { type ProblemList } from './problem-list.js';

/** What stands above the data: metadata lines, then the header. Takes a file's first lines one by one. */
export class Head {
  readonly metadata = new Metadata();
  columns: Column[] = [];
  /** Cells the header has, well named or not: what each row must have. */
  width = 0;
  headerLine = 0;
  /** Was anything but blanks seen? */
  inked = false;
  private unitless: { line: number; cells: string[] } | undefined;
  private blankLine: number | undefined;
  private preamble = 0;

  constructor(
    private readonly expectation: HeaderExpectation,
    private readonly mostColumns: number,
    private readonly problems: ProblemList,
    private readonly flags: ProblemList,
  ) {}

  /** Takes one line. `header` when it was the header; `row` when the header stood before it and this is data. */
  take(bytes: Uint8Array, line: number): 'more' | 'header' | 'row' {
    const read = textOfLine(bytes);
    if ('code' in read) {
      this.inked = true;
      this.problems.add(read.code, { line }, () => read.said);
      return 'more';
    }
    const text = read.text;
    if (text.trim() === '') {
      this.blankLine ??= line;
      return 'more';
    }
    this.inked = true;
    if (this.unitless) return this.afterUnitless(text);

    if (this.blankLine !== undefined) {
      this.noHeaderHere(this.blankLine, 'a blank line stands above the header.', '');
      this.blankLine = undefined;
    }
    if (text.startsWith('#')) {
      this.metadata.take(text, line, this.problems);
      return 'more';
    }
    return this.header(text, line);
  }

  /** At the end of a file that never came to its data. */
  end(): void {
    if (this.unitless) this.settle(this.unitless.cells, this.unitless.line);
    else if (this.headerLine === 0 && this.preamble === 0)
      this.problems.add('header.missing', {}, () => ({
        sentence: 'the file ends without a header.',
        expected: 'a line of names with units, such as: time [s],rim pressure [kPa]',
        action: 'Export the whole record and send the file again.',
      }));
  }

  private header(text: string, line: number): 'more' | 'header' {
    if (/^\s*sep=/i.test(text))
      this.problems.refuse(
        'csv.delimiter',
        { line },
        {
          sentence: 'a "sep=" line stands here; this layout parts cells by commas.',
          found: text,
          action: 'Leave the line out and export with commas.',
        },
      );
    const split = cellsOf(text);
    if ('code' in split) this.problems.refuse(split.code, { line, column: split.column }, split.said);
    const { cells } = split;

    if (cells.length === 1 && /[;\t|]/.test(text))
      this.problems.refuse(
        'csv.delimiter',
        { line },
        {
          sentence: 'this line parts its cells by something else than commas.',
          found: text,
          expected: 'cells parted by commas',
          action: 'Export with commas between cells and points in numbers, and send the file again.',
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
    if (cells.every((cell) => 'value' in readNumber(cell)))
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

    if (cells.every((cell) => nameAndUnit(cell).unit === undefined)) {
      // Whether the units are missing or stand in a row of their own is told by the next line.
      this.unitless = { line, cells };
      return 'more';
    }
    this.settle(cells, line);
    return 'header';
  }

  private afterUnitless(text: string): 'header' | 'row' {
    const { line, cells } = this.unitless as { line: number; cells: string[] };
    this.unitless = undefined;
    const next = text.split(',');
    if (next.some((cell) => 'value' in readNumber(cell))) {
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

  private settle(cells: string[], line: number): void {
    this.headerLine = line;
    this.width = cells.length;
    this.columns = readHeader(cells, line, this.expectation, this.problems, this.flags);
  }

  private noHeaderHere(line: number, sentence: string, text: string): void {
    this.preamble++;
    this.problems.add('header.missing', { line }, () => ({
      sentence,
      found: text,
      expected: '# key: value, or the header',
      action: 'Leave the line out, or write it as metadata: # note: ...',
    }));
  }
}
