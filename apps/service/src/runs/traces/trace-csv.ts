import { columnNames, headOf, type RecordTable } from './record-table.js';
import { rowsOf } from './trace-rows.js';

/**
 * A record of a run as a file of layout 1, a block at a time. Numbers are written so that they read back to the same
 * double; a sample without a reading is an empty cell. Values are corrected already, and the file says so.
 */
export async function* csvOf(table: RecordTable): AsyncGenerator<string> {
  yield headOf(table)
    .map(({ key, value }) => `# ${key}: ${value}\n`)
    .join('');
  yield `${columnNames(table).join(',')}\n`;
  for await (const columns of rowsOf(table)) yield linesOf(columns);
}

function linesOf(columns: readonly Float64Array[]): string {
  const [time] = columns;
  const lines = Array.from(time ?? [], (_, row) => columns.map((column) => written(column[row] as number)).join(','));
  return lines.map((line) => `${line}\n`).join('');
}

function written(value: number): string {
  if (Number.isNaN(value)) return '';
  return Object.is(value, -0) ? '-0' : String(value);
}
