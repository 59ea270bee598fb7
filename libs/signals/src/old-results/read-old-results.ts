import type { OldResult, Problem } from '@breakbook/lab';
import { cellsOf } from '../files/cells.js';
import { dialectOf } from '../files/dialect.js';
import { markLength, somethingElse } from '../files/first-bytes.js';
import { controlFault, type Fault, textOfLine } from '../files/line-bytes.js';
import { ProblemList } from '../files/problem-list.js';
import { type CellExpectation, cellsOfRow, otherDelimiters } from '../files/row-cells.js';
import { columnsIn } from './columns.js';
import { oldResultIn } from './row.js';

/** Each row becomes a record that the entry of the ledger names, so a table is bounded. */
export const OLD_RESULTS_BOUNDS = { bytes: 2 * 1024 * 1024, rows: 2000, lineBytes: 65_536 };

/** A table of old results, read whole. */
export interface OldResultsTable {
  results: OldResult[];
  /** What was taken and should be looked at. */
  flags: Problem[];
}

const LF = 10;
const CR = 13;
/** The text of layout 1: commas, points, lines of remark by #. */
const DIALECT = dialectOf({ time: { kind: 'time', column: 'time' }, columns: [] });

/**
 * Reads a table of old results: CSV by the grammar of run files (docs/formats.md, "Tables of old results"), a header of
 * known columns, one result a row. Whole or not at all: throws a `Refusal` that names the first hundred problems by line
 * and column and counts them all.
 */
export function readOldResults(name: string, sent: Uint8Array): OldResultsTable {
  const problems = new ProblemList(name);
  const flags = new ProblemList(name);
  refuseOther(sent, problems);
  const [first = new Uint8Array(0), ...rows] = linesOf(sent.subarray(markLength(sent, 'utf-8')), flags);
  if (rows.length > OLD_RESULTS_BOUNDS.rows)
    problems.refuse(
      'csv.too-many-rows',
      {},
      {
        sentence: `the table has ${rows.length} rows; ${OLD_RESULTS_BOUNDS.rows} are taken at once.`,
        action: 'Divide it, and send each part as a table of its own.',
      },
    );

  const header = headerIn(first);
  if ('code' in header) return problems.refuse(header.code, { line: 1 }, header.said);
  return { results: resultsIn(rows, header.cells, problems), flags: flags.first };
}

function resultsIn(rows: readonly Uint8Array[], header: readonly string[], problems: ProblemList): OldResult[] {
  const columns = columnsIn(header, 1, problems);
  if (rows.length === 0)
    problems.add('header.no-data', { line: 1 }, () => ({
      sentence: 'no row follows the header.',
      action: 'Send the table with its rows.',
    }));
  problems.throwIfAny();

  const expected: CellExpectation = {
    width: header.length,
    dialect: DIALECT,
    bounds: OLD_RESULTS_BOUNDS,
    looksLikeHeader: (cells) => cells.join('\n') === header.join('\n'),
  };
  const results: OldResult[] = [];
  const seen = new Map<string, number>();
  for (const [index, bytes] of rows.entries()) {
    const line = index + 2;
    const read = bytes.length === 0 ? BLANK : cellsOfRow(bytes, expected);
    if ('code' in read) {
      const { code, said, column } = read;
      problems.add(code, { line, ...(column === undefined ? {} : { column }) }, () => said);
      continue;
    }
    const written = read.cells.join('\n');
    const same = seen.get(written);
    if (same !== undefined)
      problems.add('meta.duplicate', { line }, () => ({
        sentence: `this row is line ${same} over again, cell by cell.`,
        action: 'Take one of them out, or say in remark what sets them apart.',
      }));
    seen.set(written, line);
    const result = oldResultIn(read.cells, line, columns, problems);
    if (result) results.push(result);
  }
  problems.throwIfAny();
  return results;
}

const BLANK: Fault & { column?: number } = {
  code: 'csv.blank-line',
  said: { sentence: 'a blank line stands among the rows.', action: 'Take it out.' },
};

function refuseOther(sent: Uint8Array, problems: ProblemList): void {
  if (sent.length > OLD_RESULTS_BOUNDS.bytes)
    problems.refuse(
      'file.too-large',
      {},
      {
        sentence: `the table has ${sent.length} bytes; ${OLD_RESULTS_BOUNDS.bytes} are taken.`,
        action: 'Divide it, and send each part as a table of its own.',
      },
    );
  const other = somethingElse(sent);
  if (other) {
    const { code, said, line } = other;
    // What unpacks or re-encodes a run file is a layout, and a table has none.
    problems.refuse(code, line === undefined ? {} : { line }, {
      sentence: said.sentence.replace('like a run file', 'like a table'),
      expected: 'a CSV text in UTF-8',
      action: 'Export the table as CSV in UTF-8, unpacked, and send it again.',
    });
  }
  const letters = sent.subarray(markLength(sent, 'utf-8'));
  if (letters.every((byte) => byte === 32 || byte === 9 || byte === LF || byte === CR))
    problems.refuse(
      'file.empty',
      {},
      { sentence: 'nothing stands in this file.', action: 'Look whether the export was written to its end.' },
    );
}

/** The lines without their ends; blank ones at the end of the file are none. */
function linesOf(text: Uint8Array, flags: ProblemList): Uint8Array[] {
  const lines: Uint8Array[] = [];
  let returns = 0;
  for (let from = 0; from < text.length; ) {
    const feed = text.indexOf(LF, from);
    const end = feed < 0 ? text.length : feed;
    const returned = feed > from && text[end - 1] === CR;
    if (returned) returns++;
    lines.push(text.subarray(from, returned ? end - 1 : end));
    from = end + 1;
  }
  const ended = lines.length - (text.at(-1) === LF ? 0 : 1);
  if (returns > 0 && returns < ended)
    flags.add('csv.line-ending', {}, () => ({
      sentence: 'some lines end with LF and some with CR LF, as where a table was put together by hand.',
      action: 'Look whether rows are missing or doubled where they meet.',
    }));
  if (text.at(-1) !== LF)
    flags.add('file.no-final-newline', { line: lines.length }, () => ({
      sentence: 'the last line has no line end; a cell that was cut off would look the same.',
      action: 'Compare the last row with the table it came from.',
    }));
  while (lines.length > 1 && lines.at(-1)?.length === 0) lines.pop();
  return lines;
}

function headerIn(line: Uint8Array): { cells: string[] } | Fault {
  const read = textOfLine(line);
  if ('code' in read) return read;
  const fault = controlFault(read.text);
  if (fault) return fault;
  const split = cellsOf(read.text);
  if ('code' in split) return split;
  if (split.cells.length > 1) return split;
  return {
    code: otherDelimiters(DIALECT).test(read.text) ? 'csv.delimiter' : 'header.missing',
    said: {
      sentence: 'the first line is no header of columns parted by commas.',
      found: read.text,
      expected: 'the names of the columns, parted by commas',
      action: 'Export the table with commas between cells and a point as decimal sign, its header on the first line.',
    },
  };
}

/** Refuses results of days that have not come. A table knows no clock, so whoever has one asks. */
export function refuseFutureDays(name: string, results: readonly OldResult[], today: string): void {
  const problems = new ProblemList(name);
  for (const { line, date } of results)
    if (date !== undefined && date > today)
      problems.add('meta.date', { line }, () => ({
        sentence: `${date} has not come yet.`,
        found: date,
        action: 'Correct the day of this row.',
      }));
  problems.throwIfAny();
}
