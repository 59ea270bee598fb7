import type { Reader } from '@breakbook/records';
import type { RunRecord } from '../run-record.js';
import type { StoredTrace } from './stored-traces.js';

/** One record of a run as it is exported: the channels that share its clock. */
export interface RecordTable {
  reader: Reader;
  record: RunRecord;
  traces: readonly StoredTrace[];
}

/** What stands at its head: of which part and run it is, and that its values are corrected already. */
export function headOf({ record: { run }, traces }: RecordTable): { key: string; value: string }[] {
  const passage = traces[0]?.passage;
  const started = run.passages?.find((one) => one.passage === passage)?.startedAt ?? run.startedAt;
  return [
    { key: 'specimen', value: run.specimen },
    ...(run.rig === undefined ? [] : [{ key: 'rig', value: run.rig }]),
    { key: 'started', value: started },
    { key: 'run', value: run.run },
    ...(passage === undefined ? [] : [{ key: 'passage', value: `${passage}` }]),
    { key: 'values', value: 'corrected by the calibrations in force' },
  ];
}

/** Its columns, each with its unit. */
export function columnNames({ traces }: RecordTable): string[] {
  return ['time [s]', ...traces.map(({ channel, unit }) => `${channel} [${unit}]`)];
}
