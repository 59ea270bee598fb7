import type { ProblemCode } from '@breakbook/lab';
import { NO_READING, noReadingHere, type Token, tokensOf } from './no-reading.js';
import { readNumber, scanNumber } from './number.js';
import type { Place, ProblemList, Said } from './problem-list.js';
import { cellsOfRow, cutShort, type RowExpectation } from './row-cells.js';
import { StampCells } from './stamp-cells.js';

const [LF, CR, SPACE] = [10, 13, 32];

/** Rows handed on at a time. */
const BLOCK = 4096;

/** Takes a block of rows as one array per column of the file; the arrays are used again for the next one. */
export type OnBlock = (columns: readonly Float64Array[]) => void;

/**
 * The data rows of a file, straight from bytes into one array of numbers per column. Each row is first read as nothing
 * but plain numbers, stamps and tokens without a reading, which become `NO_READING`; a line where that fails is looked at again, cell by cell, to say what is wrong with it.
 */
export class Rows {
  /** Rows read, those handed on among them. */
  count = 0;
  private held = 0;
  private readonly columns: Float64Array[];
  private readonly row: Float64Array;
  private readonly stamps: StampCells | undefined;
  private readonly tokens: readonly (readonly Token[])[];
  /** Time of the first row, as it stands in the file. */
  firstTime: number | undefined;
  private lastTime = Number.NEGATIVE_INFINITY;
  private blankLine: number | undefined;
  /** Something that is a cut file on the last line and a bad row on any other. */
  private short: { code: ProblemCode; place: Place; said: () => Said } | undefined;

  constructor(
    private readonly expected: RowExpectation,
    private readonly problems: ProblemList,
    /** Physical line last read. */
    public line: number,
    private readonly lineEnd: (crlf: boolean, line: number) => void,
    private readonly onBlock: OnBlock,
  ) {
    this.row = new Float64Array(expected.width).fill(NO_READING);
    this.tokens = expected.noReading.map(tokensOf);
    const { time } = expected.dialect;
    if (time.kind === 'date-time') this.stamps = new StampCells(time);
    this.columns = Array.from({ length: expected.width }, () => new Float64Array(BLOCK));
  }

  /**
   * Takes whole lines: the bytes from `from` up to `to`, the last of which is a line feed. `open` says that the file
   * did not have that last line feed.
   */
  take(bytes: Uint8Array, from: number, to: number, options: { open?: boolean } = {}): void {
    let at = from;
    while (at < to) {
      this.line++;
      const next = this.plainRow(bytes, at);
      if (next > 0) at = next;
      else {
        const end = bytes.indexOf(LF, at);
        const crlf = end > at && bytes[end - 1] === CR;
        this.lineEnd(crlf, this.line);
        this.lookAgain(bytes.subarray(at, crlf ? end - 1 : end), options.open ?? false);
        at = end + 1;
      }
    }
  }

  /** At the end of the file. */
  end(): void {
    const short = this.short;
    if (short) this.problems.add('file.truncated', short.place, () => cutShort(short.said()));
    this.short = undefined;
    if (this.held > 0) this.handOn();
  }

  /** Milliseconds since 1970 of the first stamp, where the time column has date-times. */
  get firstInstant(): number | undefined {
    return this.stamps?.firstInstant;
  }

  /** Reads a row of plain cells and answers the place after it; -1 where it is anything else. */
  private plainRow(bytes: Uint8Array, start: number): number {
    const { width, time, clock, dialect } = this.expected;
    const delimiter = dialect.delimiter.byte;
    const decimal = dialect.decimal.byte;
    const { stamps } = this;
    let at = start;
    for (let cell = 0; cell < width; cell++) {
      if (cell > 0 && bytes[at++] !== delimiter) return -1;
      while (bytes[at] === SPACE) at++;
      if (stamps && (cell === time || cell === clock)) {
        at = stamps.scan(bytes, at, delimiter, cell === time ? 'date' : 'clock');
        continue;
      }
      const from = at;
      at = scanNumber(bytes, at, this.row, cell, decimal);
      if (at < 0) {
        at = noReadingHere(bytes, from, delimiter, this.tokens[cell]);
        if (at < 0) return -1;
        this.row[cell] = NO_READING;
      }
      while (bytes[at] === SPACE) at++;
    }
    const crlf = bytes[at] === CR;
    if (crlf) at++;
    if (bytes[at] !== LF || at - start > this.expected.bounds.lineBytes) return -1;
    if (stamps) {
      const seconds = stamps.ofScanned(bytes);
      if (seconds === undefined) return -1;
      this.row[time] = seconds;
    }
    this.lineEnd(crlf, this.line);
    this.accept();
    return at + 1;
  }

  /** A line that is no row of plain numbers: what it is instead, cell by cell. */
  private lookAgain(line: Uint8Array, open: boolean): void {
    if (line.every((byte) => byte === SPACE)) {
      this.blankLine ??= this.line;
      return;
    }
    this.settlePending();
    const looked = cellsOfRow(line, this.expected);
    if ('code' in looked) {
      const place = { line: this.line, ...(looked.column === undefined ? {} : { column: looked.column }) };
      // Too few cells: a cut file on the last line, a bad row on any other.
      if (looked.short) this.short = { code: looked.code, place, said: () => looked.said };
      else this.problems.add(looked.code, place, () => looked.said);
      return;
    }

    let whole = true;
    const { width, names, time, clock, dialect, noReading } = this.expected;
    for (const [index, cell] of looked.cells.entries()) {
      // The time of day is read with its date.
      if (index === clock) continue;
      if (noReading[index]?.includes(cell.trim())) {
        this.row[index] = NO_READING;
        continue;
      }
      const number =
        this.stamps && index === time
          ? this.stamps.read(clock < 0 ? [cell] : [cell, looked.cells[clock] ?? ''])
          : readNumber(cell, dialect);
      if ('value' in number) {
        this.row[index] = number.value;
        continue;
      }
      whole = false;
      const place = { line: this.line, column: index + 1, channel: names[index] ?? '' };
      const atEnd = index === width - 1;
      if (atEnd && open) this.problems.add('file.truncated', place, () => cutShort(number.said));
      else if (atEnd && number.code === 'number.missing')
        this.short = { code: number.code, place, said: () => number.said };
      else this.problems.add(number.code, place, () => number.said);
    }
    if (whole) this.accept();
  }

  private accept(): void {
    if (this.short || this.blankLine !== undefined) this.settlePending();
    const { time, bounds, names, width } = this.expected;
    if (time >= 0) {
      const now = this.row[time] as number;
      if (now <= this.lastTime && !(now === this.lastTime && this.expected.dialect.time.repeatedStamps))
        this.timeFault(now, names[time] ?? '');
      this.firstTime ??= now;
      this.lastTime = now;
    }
    if (this.held === BLOCK) this.handOn();
    for (let cell = 0; cell < width; cell++) (this.columns[cell] as Float64Array)[this.held] = this.row[cell] as number;
    this.held++;
    this.count++;
    if (this.count > bounds.rows)
      this.problems.refuse(
        'csv.too-many-rows',
        { line: this.line },
        {
          sentence: `the file has more than ${bounds.rows} rows.`,
          action: 'Export the run alone, or at the rate the method asks for.',
        },
      );
  }

  private timeFault(now: number, channel: string): void {
    const place = { line: this.line, column: this.expected.time + 1, channel };
    const before = this.lastTime;
    if (now === before)
      this.problems.add('time.duplicate', place, () => ({
        sentence: `the time ${now} is the same as in the row before.`,
        found: String(now),
        expected: `a time after ${before}`,
        action: 'Export the time with more digits, or with one row per sample.',
      }));
    else
      this.problems.add('time.not-increasing', place, () => ({
        sentence: `the time goes back from ${before} to ${now}.`,
        found: String(now),
        expected: `a time after ${before}`,
        action: 'Check whether two runs stand in one file, or the clock was set during the run.',
      }));
  }

  /** What was put off until the next line with ink showed that the file goes on. */
  private settlePending(): void {
    const blank = this.blankLine;
    if (blank !== undefined)
      this.problems.add('csv.blank-line', { line: blank }, () => ({
        sentence: 'a blank line stands among the data.',
        action: 'Find out whether rows are missing here; export the record in one piece.',
      }));
    this.blankLine = undefined;
    const short = this.short;
    if (short) this.problems.add(short.code, short.place, short.said);
    this.short = undefined;
  }

  private handOn(): void {
    this.onBlock(this.columns.map((column) => column.subarray(0, this.held)));
    this.held = 0;
  }
}
