import type { Problem, ProblemCode } from '@breakbook/lab';
import { convert } from '@breakbook/units';
import { type FileBounds, readingBounds } from './file-bounds.js';
import { FIRST_BYTES, markLength, somethingElse } from './first-bytes.js';
import { Head } from './head.js';
import { type Column, type HeaderExpectation, looksLikeHeader } from './header.js';
import { KeptColumns } from './kept-columns.js';
import { textOfLine } from './line-bytes.js';
import type { Metadata } from './metadata.js';
import { ProblemList } from './problem-list.js';
import { tooLong } from './row-cells.js';
import { type OnBlock, Rows } from './rows.js';
import { TextBytes, type TextFault } from './text-bytes.js';
import { timed } from './time-stamps.js';
import { isGzip, unpacked } from './unpacked.js';

/** A run file as read: numbers in the units of its header, nothing corrected, nothing left out. */
export interface RunTable {
  rows: number;
  /** Physical line of the first row; the rows below follow line by line. */
  firstLine: number;
  metadata: Metadata;
  columns: Column[];
  /** Per column of `columns`, in its unit; `NO_READING` where a declared token says that there was none. */
  values: Float64Array[];
  /** Per column, the digest of its numbers where it was read and not held. */
  digests: (string | undefined)[];
  /** Milliseconds since 1970 UTC of the first row, where the stamps of the file say it. */
  firstInstant: number | undefined;
  flags: Problem[];
}

export interface ReadOptions {
  /** Metadata that must be there. */
  requiredMetadata: readonly string[];
  bounds?: Partial<FileBounds>;
  /**
   * Takes the rows block by block, as numbers in the file's own units, so that a file of any length is read in the same
   * memory; the table then holds none. What was handed on counts for nothing where the file is refused at last.
   */
  onBlock?: OnBlock;
  /** Which columns are held; of the others there is a digest. All, where it is left out; none beside `onBlock`. */
  keep?: (column: Column) => boolean;
  /** Called now and then with the bytes read so far and, where known, in all. */
  onProgress?: (done: number, total: number) => void;
}

const LF = 10;
const CR = 13;
const PIECE = 2 ** 20;

/**
 * Reads *layout 1* (docs/formats.md), or what a layout has otherwise, from the bytes of a whole file, a mebibyte at a
 * time. Throws a `Refusal` that lists
 * the first hundred problems and counts them all.
 */
export function readLayout1(
  name: string,
  sent: Uint8Array,
  expectation: HeaderExpectation,
  options: ReadOptions,
): RunTable {
  const most = expectation.dialect.gzipUpTo;
  const packed = most !== undefined && isGzip(sent);
  const bytes = packed ? unpacked(sent, Math.min(most, readingBounds(options.bounds).bytes)) : sent;
  if ('code' in bytes) return new ProblemList(name).refuse(bytes.code, {}, bytes.said);

  const reader = new Layout1Reader(name, expectation, options);
  for (let at = 0; at < bytes.length; at += PIECE) {
    reader.take(bytes.subarray(at, at + PIECE));
    options.onProgress?.(Math.min(at + PIECE, bytes.length), bytes.length);
  }
  return reader.end();
}

/** Layout 1, fed in pieces of any length: only the line that a piece cuts is held over to the next. */
export class Layout1Reader {
  private readonly problems: ProblemList;
  private readonly flags: ProblemList;
  private readonly bounds: FileBounds;
  private readonly head: Head;
  private rows: Rows | undefined;
  private kept: KeptColumns | undefined;
  private readonly text: TextBytes;
  /** The first bytes, until there are enough of them to be looked at. */
  private opening: Uint8Array | undefined = new Uint8Array(0);
  private held: Uint8Array<ArrayBuffer> = new Uint8Array(0);
  private total = 0;
  private line = 0;
  private crlf: boolean | undefined;
  private mixed = false;
  private closing = false;

  constructor(
    private readonly name: string,
    private readonly expectation: HeaderExpectation,
    private readonly options: ReadOptions,
  ) {
    this.problems = new ProblemList(name);
    this.flags = new ProblemList(name);
    this.bounds = readingBounds(options.bounds);
    this.text = new TextBytes(expectation.dialect);
    this.head = new Head(expectation, this.bounds.columns, this.problems, this.flags);
    this.checkName();
  }

  take(piece: Uint8Array): void {
    this.total += piece.length;
    if (this.total > this.bounds.bytes)
      this.problems.refuse(
        'file.too-large',
        {},
        {
          sentence: `the file is longer than ${this.bounds.bytes} bytes.`,
          action: 'Export the run alone, or at the rate the method asks for.',
        },
      );
    if (!this.opening) {
      this.read(piece);
      return;
    }
    this.opening = joined(this.opening, piece);
    if (this.opening.length >= FIRST_BYTES) this.begin(this.opening);
  }

  end(): RunTable {
    if (this.opening) this.begin(this.opening);
    const cut = this.text.end();
    if (cut) this.textFault(cut);
    if (this.held.length > 0) this.lastLine(this.held);
    if (!this.head.inked)
      this.problems.refuse(
        'file.empty',
        {},
        {
          sentence: this.total === 0 ? 'the file has no bytes.' : 'the file holds nothing but blanks and line ends.',
          expected: 'metadata, a header and rows of numbers',
          action: 'Export the record again.',
        },
      );
    const { head, rows } = this;
    rows?.end();
    if (!rows) head.end();
    head.metadata.require(this.options.requiredMetadata, this.problems);
    if (head.headerLine > 0 && (rows?.count ?? 0) === 0 && this.problems.count === 0)
      this.problems.add('header.no-data', { line: head.headerLine }, () => ({
        sentence: 'no row of numbers follows the header.',
        action: 'Export the whole record and send the file again.',
      }));
    this.problems.throwIfAny();

    const named = numbered(head.columns);
    const { time: layoutTime } = this.expectation.dialect;
    const { columns, values: inUnits } = timed(
      named,
      named.map(({ column }) => this.kept?.values(column) ?? new Float64Array(0)),
      layoutTime,
    );
    const first = rows?.firstTime;
    return {
      rows: rows?.count ?? 0,
      firstLine: head.headerLine + 1,
      metadata: head.metadata,
      columns,
      values: inUnits,
      digests: named.map(({ column }) => this.kept?.digest(column)),
      firstInstant:
        layoutTime.kind === 'epoch' && first !== undefined
          ? 1000 * convert(first, layoutTime.unit, 's')
          : rows?.firstInstant,
      flags: this.flags.first,
    };
  }

  private checkName(): void {
    const length = new TextEncoder().encode(this.name).length;
    if (this.name === '' || /[\0\r\n]/.test(this.name) || length > this.bounds.nameBytes)
      this.problems.refuse(
        'file.name-invalid',
        {},
        {
          sentence: 'this is no name for a file.',
          found: this.name,
          expected: `1 to ${this.bounds.nameBytes} bytes without zero bytes and line ends`,
          action: 'Give the file a name and send it again.',
        },
      );
  }

  /** The first bytes, looked at once: another type is refused, one byte order mark is passed over. */
  private begin(bytes: Uint8Array): void {
    this.opening = undefined;
    const { encoding } = this.expectation.dialect;
    const other = somethingElse(bytes, encoding);
    if (other) this.problems.refuse(other.code, other.line === undefined ? {} : { line: other.line }, other.said);
    this.read(bytes.subarray(markLength(bytes, encoding)));
  }

  /** Reads every whole line and holds the rest over. */
  private read(piece: Uint8Array): void {
    const text = this.text.take(piece);
    if ('code' in text) this.textFault(text);
    let from = 0;
    if (this.held.length > 0) {
      // Only the line that was cut is put together; the rest is read where it lies.
      from = text.indexOf(LF) + 1;
      const cut = joined(this.held, from > 0 ? text.subarray(0, from) : text);
      this.held = new Uint8Array(0);
      if (from === 0) {
        this.hold(cut);
        return;
      }
      this.lines(cut, 0, cut.length);
    }
    const end = text.lastIndexOf(LF) + 1;
    this.lines(text, from, end);
    this.hold(new Uint8Array(text.subarray(end)));
  }

  private lines(bytes: Uint8Array, from: number, to: number): void {
    let at = from;
    while (!this.rows && at < to) at = this.headLine(bytes, at);
    if (this.rows) this.rows.take(bytes, at, to);
  }

  private hold(rest: Uint8Array<ArrayBuffer>): void {
    this.held = rest;
    if (rest.length > this.bounds.lineBytes) this.neverEnding(rest);
  }

  private headLine(bytes: Uint8Array, at: number): number {
    const end = bytes.indexOf(LF, at);
    this.line++;
    const crlf = end > at && bytes[end - 1] === CR;
    this.lineEnd(crlf, this.line);
    const line = bytes.subarray(at, crlf ? end - 1 : end);
    if (line.length > this.bounds.lineBytes) this.neverEnding(line, this.line);
    const was = this.head.take(line, this.line);
    if (was === 'more') return end + 1;
    this.startRows(was === 'row' ? this.line - 1 : this.line);
    // A first row already taken as the line that settled the header is read again, as a row.
    return was === 'row' ? at : end + 1;
  }

  private startRows(line: number): void {
    const { columns, width } = this.head;
    const time = columns.find(({ carries }) => 'time' in carries);
    const clock = columns.find(({ carries }) => 'clock' in carries);
    const { onBlock, keep = () => true } = this.options;
    if (!onBlock) this.kept = new KeptColumns(numbered(columns), keep);
    const names = Array.from({ length: width }, (_, i) => columns.find(({ column }) => column === i + 1)?.name ?? '');
    this.rows = new Rows(
      {
        width,
        time: time ? time.column - 1 : -1,
        clock: clock ? clock.column - 1 : -1,
        names,
        looksLikeHeader: (cells) => looksLikeHeader(cells, this.expectation),
        dialect: this.expectation.dialect,
        noReading: names.map((name) => this.expectation.dialect.noReading.get(name) ?? []),
        bounds: this.bounds,
      },
      this.problems,
      line,
      (crlf, at) => this.lineEnd(crlf, at),
      onBlock ?? ((block) => this.kept?.take(block)),
    );
  }

  /** A last line without its line end: read like any other, and flagged where it is whole. */
  private lastLine(held: Uint8Array): void {
    this.closing = true;
    const bytes = joined(held, Uint8Array.of(LF));
    const before = this.problems.count;
    const at = this.rows ? 0 : this.headLine(bytes, 0);
    if (this.rows && at < bytes.length) {
      const rows = this.rows.count;
      this.rows.take(bytes, at, bytes.length, { open: true });
      if (this.rows.count > rows && this.problems.count === before)
        this.flags.add('file.no-final-newline', { line: this.head.headerLine + this.rows.count }, () => ({
          sentence: 'the last line has all its cells but no line end; a last number that was cut would look the same.',
          action: 'Compare the last row with the record on the logger.',
        }));
    }
  }

  private lineEnd(crlf: boolean, line: number): void {
    // The line end we lend the last line says nothing about the file.
    if (this.closing) return;
    if (this.crlf === undefined) this.crlf = crlf;
    else if (this.crlf !== crlf && !this.mixed) {
      this.mixed = true;
      this.flags.add('csv.line-ending', { line }, () => ({
        sentence: `lines end with ${crlf ? 'CR LF' : 'LF'} from here on, and with the other above.`,
        action: 'Find out whether the file was put together or edited by hand.',
      }));
    }
  }

  private textFault({ code, said, linesBefore }: TextFault): never {
    return this.problems.refuse(code, { line: linesBefore + 1 }, said);
  }

  private neverEnding(bytes: Uint8Array, line = 1 + (this.rows?.line ?? this.line)): never {
    const read = textOfLine(bytes, { cut: true });
    const fault: { code: ProblemCode; said: Parameters<ProblemList['refuse']>[2] } =
      'code' in read ? read : { code: 'csv.line-too-long', said: tooLong(this.bounds.lineBytes) };
    return this.problems.refuse(fault.code, { line }, fault.said);
  }
}

/** The time of day is part of the time, and no number of its own. */
function numbered(columns: readonly Column[]): Column[] {
  return columns.filter(({ carries }) => !('clock' in carries));
}

function joined(a: Uint8Array, b: Uint8Array): Uint8Array<ArrayBuffer> {
  const both = new Uint8Array(a.length + b.length);
  both.set(a);
  both.set(b, a.length);
  return both;
}
