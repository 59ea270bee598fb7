import { signals } from '../../arithmetic.js';
import type { RecordTable } from './record-table.js';
import { blocksOfStored } from './stored-traces.js';

/** Times and values of channels that share a clock, block by block, bit for bit. */
export async function* rowsOf({ reader, traces }: RecordTable): AsyncGenerator<Float64Array[]> {
  const { samplesOf } = await signals();
  const sources = [];
  for (const trace of traces) sources.push(await blocksOfStored(reader, trace));
  const blocks = sources[0]?.spans.length ?? 0;
  for (let block = 0; block < blocks; block++) {
    const columns: Float64Array[] = [];
    for (const source of sources) {
      const [stored] = await source.samples([block]);
      if (!stored) throw new Error(`Block ${block} of a stored trace was removed while it was read.`);
      const { time, values } = samplesOf(stored);
      if (columns.length === 0) columns.push(time);
      columns.push(values);
    }
    yield columns;
  }
}
