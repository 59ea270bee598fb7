import type { Reading } from '@breakbook/lab';
import { type Reader, tables } from '@breakbook/records';
import { In } from 'typeorm';
import type { StoredLot } from './lot-bundle.js';

/** The last kept reading of each run of a lot, by its name. */
export async function keptReadings(reader: Reader, { ids }: StoredLot): Promise<Map<string, Reading>> {
  const runs = [...ids.runs];
  const kept = await reader.find(tables.Reading, { runId: In(runs.map(([, { runId }]) => runId)) });
  const latest = new Map(kept.map(({ runId, content }) => [runId, content]));
  return new Map(
    runs.flatMap(([run, { runId }]) => {
      const reading = latest.get(runId);
      return reading ? [[run, reading]] : [];
    }),
  );
}
