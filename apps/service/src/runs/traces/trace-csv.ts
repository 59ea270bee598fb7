import { type Reader } from '@breakbook/records';
import { type RunRecord } from '../run-record.js';
import { type StoredTrace } from './stored-traces.js';
import { rowsOf } from './trace-rows.js';

/**
 * A record of a run as a file of layout 1, a block at a time. Numbers are written so that they read back to the same
 * double; a sample without a reading is an empty cell. Values are corrected already, and the file says so.
 */
export async function* csvOf({
  reader,
  record: { run },
  traces,
}: {
  reader: Reader;
  record: RunRecord;
  traces: readonly StoredTrace[];
}): AsyncGenerator<string> {
  const passage = traces[0]?.passage;
  const started = run.passages?.find((one) => one.passage === passage)?.startedAt ?? run.startedAt;
  const metadata = [
    ['specimen', run.specimen],
    ...(run.rig === undefined ? [] : [['rig', run.rig]]),
    ['started', started],
    ['run', run.run],
    ...(passage === undefined ? [] : [['passage', `${passage}`]]),
    ['values', 'corrected by the calibrations in force'],
  ];
  yield metadata.map(([key, value]) => `# ${key}: ${value}\n`).join('');
  yield `${['time [s]', ...traces.map(({ channel, unit }) => `${channel} [${unit}]`)].join(',')}\n`;
  for await (const columns of rowsOf(reader, traces)) yield linesOf(columns);
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
