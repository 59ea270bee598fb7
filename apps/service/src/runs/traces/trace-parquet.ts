import { ByteWriter, type KeyValue, ParquetWriter } from 'hyparquet-writer';
import { columnNames, headOf, type RecordTable } from './record-table.js';
import { rowsOf } from './trace-rows.js';

/** A record of a run as a Parquet file; what layout 1 says in its metadata lines stands in the file's key-value metadata. */
export function parquetOf(table: RecordTable): AsyncGenerator<Uint8Array> {
  return parquetFile(columnNames(table), headOf(table), rowsOf(table));
}

/**
 * A table of doubles as a Parquet file, a row group for each of its blocks. The first column has a value in every row;
 * in the others a sample without a reading is a null.
 *
 * Source: Apache Parquet format, version 2.
 */
export async function* parquetFile(
  names: readonly string[],
  kvMetadata: KeyValue[],
  blocks: AsyncIterable<Float64Array[]> | Iterable<Float64Array[]>,
): AsyncGenerator<Uint8Array> {
  const writer = new ByteWriter();
  const file = new ParquetWriter({
    writer,
    schema: [
      { name: 'record', num_children: names.length },
      ...names.map((name, at) => ({
        name,
        type: 'DOUBLE' as const,
        repetition_type: at === 0 ? ('REQUIRED' as const) : ('OPTIONAL' as const),
      })),
    ],
    kvMetadata,
    createdBy: 'Breakbook',
  });
  for await (const columns of blocks) {
    await file.write({
      columnData: columns.map((column, at) => ({
        name: names[at] as string,
        data: at === 0 ? column : withNulls(column),
        // A dictionary of doubles would take 0 and -0 for one.
        encoding: 'PLAIN' as const,
      })),
      rowGroupSize: columns[0]?.length ?? 1,
    });
    yield taken(writer);
  }
  await file.finish();
  yield taken(writer);
}

function withNulls(column: Float64Array): Float64Array | (number | null)[] {
  if (!column.some(Number.isNaN)) return column;
  return Array.from(column, (value) => (Number.isNaN(value) ? null : value));
}

/** What was written since the last time; places in the file are counted on. */
function taken(writer: ByteWriter): Uint8Array {
  const bytes = writer.getBytes().slice();
  writer.index = 0;
  return bytes;
}
