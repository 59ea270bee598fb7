import type { Reader } from '@breakbook/records';
import type { BlockSource, BlockSpan, TraceBlock } from '@breakbook/signals';
import type { EntityManager } from 'typeorm';
import type { PackedTrace } from '../../workers/tasks.js';

/** A channel of a run in the database, without its samples. */
export interface StoredTrace extends Omit<PackedTrace, 'blocks'> {
  runId: string;
  position: number;
}

/** The traces of a run, in order; undefined where there are none that were worked out from just these records. */
export async function storedTraces(reader: Reader, runId: string, source: string): Promise<StoredTrace[] | undefined> {
  const rows = await reader.manager.query<(StoredTrace & { source: string })[]>(
    `select run_id as "runId", position, channel, unit, reference, passage, samples, clock_sha256 as clock,
       source_sha256 as source
     from stored_trace where lab_id = $1 and run_id = $2 order by position`,
    [reader.labId, runId],
  );
  if (rows.length === 0 || rows.some((one) => one.source !== source)) return undefined;
  return rows.map(({ source: _source, reference, passage, ...one }) => ({
    ...one,
    ...(reference ? { reference } : {}),
    ...(passage === null ? {} : { passage }),
  }));
}

/** Keeps the traces of a run in the place of those it had. */
export async function keepTraces(
  manager: EntityManager,
  { labId, runId, source }: { labId: string; runId: string; source: string },
  traces: readonly PackedTrace[],
): Promise<void> {
  // Who else works them out in the same moment waits, and puts the same in their place.
  await manager.query('select pg_advisory_xact_lock(hashtextextended($1, 0))', [`traces of ${runId}`]);
  await manager.query('delete from stored_trace where lab_id = $1 and run_id = $2', [labId, runId]);
  for (const [index, { blocks, ...one }] of traces.entries()) {
    const place = [labId, runId, index + 1];
    await manager.query(
      `insert into stored_trace
         (lab_id, run_id, position, source_sha256, channel, unit, reference, passage, samples, clock_sha256)
       values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10)`,
      [...place, source, one.channel, one.unit, one.reference ?? null, one.passage ?? null, one.samples, one.clock],
    );
    for (const [block, { first, samples, from, to, time, values, fine, coarse }] of blocks.entries())
      await manager.query(
        `insert into trace_block (lab_id, run_id, position, block, first, samples, from_time, to_time,
           time_bytes, value_bytes, fine, coarse)
         values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12)`,
        [...place, block, first, samples, from, to, ...[time, values, fine, coarse].map((bytes) => Buffer.from(bytes))],
      );
  }
}

/** The blocks of a stored trace, each read when it is asked for. */
export async function blocksOfStored(reader: Reader, { runId, position }: StoredTrace): Promise<BlockSource> {
  const place = [reader.labId, runId, position];
  const where = 'where lab_id = $1 and run_id = $2 and position = $3';
  const spans = await reader.manager.query<BlockSpan[]>(
    `select first, samples, from_time as "from", to_time as "to" from trace_block ${where} order by block`,
    place,
  );
  const read = <T>(columns: string, blocks: readonly number[]): Promise<T[]> =>
    blocks.length === 0
      ? Promise.resolve([])
      : reader.manager.query<T[]>(`select ${columns} from trace_block ${where} and block = any($4) order by block`, [
          ...place,
          blocks,
        ]);
  return {
    spans,
    samples: (places) =>
      read<Pick<TraceBlock, 'time' | 'values'>>('time_bytes as time, value_bytes as "values"', places),
    stretches: async (places, part) =>
      (await read<{ part: Uint8Array }>(`${part} as part`, places)).map((one) => one.part),
  };
}
