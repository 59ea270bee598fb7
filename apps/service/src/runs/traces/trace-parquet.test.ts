import { parquetMetadata, parquetReadObjects } from 'hyparquet';
import { describe, expect, it } from 'vitest';
import { parquetFile } from './trace-parquet.js';

// Read back by a reader of the open format that shares no code with this project.
const names = ['time [s]', 'rimPressure [kPa]'];

async function fileOf(blocks: Float64Array[][]): Promise<ArrayBuffer> {
  const parts: Uint8Array[] = [];
  for await (const part of parquetFile(names, [{ key: 'run', value: 'Prüfung 7' }], blocks)) parts.push(part);
  return Uint8Array.from(Buffer.concat(parts)).buffer;
}

describe('a record as Parquet', () => {
  it('reads back bit for bit, block after block, with a null where there is no reading', async () => {
    const odd = [0.1 + 0.2, -0, 0, 5e-324, -1.7976931348623157e308, Number.POSITIVE_INFINITY, Number.NaN, 1 / 3];
    const first = [Float64Array.from(odd, (_, at) => at / 7), Float64Array.from(odd)];
    const second = [Float64Array.of(2, 3), Float64Array.of(Number.NaN, -0)];
    const file = await fileOf([first, second]);
    const rows = await parquetReadObjects({ file });
    const [time, values] = names.map((name) => rows.map((row) => row[name]));
    expect(time).toEqual([...(first[0] as Float64Array), 2, 3]);
    // toEqual tells -0 from 0.
    expect(values).toEqual([...odd, Number.NaN, -0].map((value) => (Number.isNaN(value) ? null : value)));
    const { row_groups, key_value_metadata } = parquetMetadata(file);
    expect(row_groups.map(({ num_rows }) => Number(num_rows))).toEqual([8, 2]);
    expect(key_value_metadata).toEqual([{ key: 'run', value: 'Prüfung 7' }]);
  });

  it('is the same bytes each time', async () => {
    const blocks = () => [[Float64Array.of(0, 1), Float64Array.of(2, Number.NaN)]];
    expect(new Uint8Array(await fileOf(blocks()))).toEqual(new Uint8Array(await fileOf(blocks())));
  });
});
