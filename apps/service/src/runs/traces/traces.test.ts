import { PostgresRawStore, verifyRecords } from '@breakbook/records';
import { parquetMetadata, parquetReadObjects } from 'hyparquet';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { expectationOf } from '../../../../../libs/signals/src/files/header.js';
import { readLayout1 } from '../../../../../libs/signals/src/files/layout-1.js';
import { queryAs } from '../../../../../tests/database.js';
import { keepLot, sendBurst, specimenKey } from '../../../../../tests/sent-runs.js';
import { type Answer, type SignedInCaller, startTestService, type TestService } from '../../../../../tests/service.js';

const ROWS = 2600;

let service: TestService;
let operator: SignedInCaller;
const specimen = specimenKey(1);
const at = `/api/runs/run-${specimen}/channels`;

beforeAll(async () => {
  service = await startTestService();
  await keepLot(service.records, 5);
  operator = await service.signIn('b-ravenscroft');
  await sendBurst(operator, specimen, ROWS);
}, 120_000);
afterAll(() => service.close());

const ask = (rest = ''): Promise<Answer> => operator.ask('GET', `${at}${rest}`);
const keptRows = () =>
  queryAs<{ traces: number; blocks: number }>(
    service.database.owner,
    `select (select count(*)::int from stored_trace) as traces, (select count(*)::int from trace_block) as blocks`,
  );

describe('the channels of a run', () => {
  it('are listed as they are judged, kept from the first look on', async () => {
    expect(await keptRows()).toEqual([{ traces: 0, blocks: 0 }]);
    const [first, second] = await Promise.all([ask(), ask()]);
    expect(first.body.items).toMatchObject([
      { channel: 'rimPressure', unit: 'kPa', samples: ROWS, from: 0, to: (ROWS - 1) / 200 },
      { samples: ROWS },
      { channel: 'roomTemperature', samples: ROWS },
    ]);
    expect(second.body).toEqual(first.body);
    expect(await keptRows()).toEqual([{ traces: 3, blocks: 3 }]);
  });

  it('are drawn in part sample by sample, and whole without losing the peak', async () => {
    const whole = await ask('/rimPressure?points=20000');
    expect(whole.body).toMatchObject({ samples: ROWS, whole: true });
    const peak = Math.max(...whole.body.values);
    const thinned = await ask('/rimPressure?points=40');
    expect(thinned.body).toMatchObject({ samples: ROWS, whole: false });
    expect(thinned.body.time.length).toBeLessThanOrEqual(40);
    expect(Math.max(...thinned.body.values)).toBe(peak);

    // At 200 samples a second: 5.000 to 5.020 s has five of them.
    const zoomed = await ask('/rimPressure?from=5&to=5.02');
    expect(zoomed.body).toMatchObject({ samples: 5, whole: true, time: [5, 5.005, 5.01, 5.015, 5.02] });
    // As a double is written by whoever halves a window: 17 digits, or an exponent.
    const odd = await ask('/rimPressure?from=0.30000000000000004&to=0.31&points=5');
    expect(odd.body).toMatchObject({ from: 0.1 + 0.2, whole: true });
    expect((await ask('/rimPressure?from=1e-7&to=0.01')).body.time).toEqual([0.005, 0.01]);
    const first = whole.body.time.indexOf(5);
    expect(zoomed.body.values).toEqual(whole.body.values.slice(first, first + 5));
  });

  it('are worked out again where they are missing, or were worked out from other records', async () => {
    const before = await ask('/rimPressure?points=20000');
    await queryAs(service.database.service, 'delete from stored_trace');
    expect((await ask('/rimPressure?points=20000')).body).toEqual(before.body);
    await queryAs(service.database.owner, `update stored_trace set source_sha256 = repeat('0', 64), unit = 'bar'`);
    expect((await ask('/rimPressure?points=20000')).body).toEqual(before.body);
    expect(await keptRows()).toEqual([{ traces: 3, blocks: 3 }]);
  });

  it('leave the evidence whole, and the ledger as it was', async () => {
    const reader = service.records.read(service.lab.labId);
    const before = await verifyRecords(reader, new PostgresRawStore());
    await queryAs(service.database.service, 'delete from stored_trace');
    await ask();
    expect(await verifyRecords(reader, new PostgresRawStore())).toEqual(before);
    expect(before.holds).toBe(true);
  });

  it('are exported as layout 1, and read back to the last bit', async () => {
    const exported = await operator.fetch(`${at}.csv`);
    expect(exported.headers.get('content-type')).toContain('text/csv');
    const channels = [
      { channel: 'rimPressure', kind: 'pressure', required: true },
      { channel: 'roomTemperature', kind: 'temperature', required: true },
    ] as const;
    const table = readLayout1(
      'run-channels.csv',
      new Uint8Array(await exported.arrayBuffer()),
      expectationOf({ time: { column: 'time', kind: 'time' }, columns: [] }, channels),
      { requiredMetadata: ['specimen', 'rig', 'started'] },
    );
    expect(table.metadata.get('specimen')?.value).toBe(specimen);
    expect(table.rows).toBe(ROWS);
    const { body } = await ask('/rimPressure?points=20000');
    const column = (name: string) => table.values[table.columns.findIndex((one) => one.name.startsWith(name))];
    expect(Array.from(column('rimPressure') ?? [])).toEqual(body.values);
    expect(Array.from(column('time') ?? [])).toEqual(body.time);
  });

  it('are exported as Parquet, and read back to the last bit', async () => {
    const exported = await operator.fetch(`${at}.parquet`);
    expect(exported.headers.get('content-type')).toContain('application/vnd.apache.parquet');
    const file = await exported.arrayBuffer();
    const rows = await parquetReadObjects({ file });
    const { body } = await ask('/rimPressure?points=20000');
    expect(rows.map((row) => row['time [s]'])).toEqual(body.time);
    expect(rows.map((row) => row['rimPressure [kPa]'])).toEqual(body.values);
    expect(parquetMetadata(file).key_value_metadata).toContainEqual({ key: 'specimen', value: specimen });
  });

  it.each([
    ['/rimPressure?from=3&to=2', 422, { code: 'query.invalid', parameter: 'from' }],
    ['/rimPressure?from=half', 422, { code: 'query.invalid', parameter: 'from' }],
    ['/rimPressure?points=1', 422, { code: 'query.invalid', parameter: 'points' }],
    ['/rimPressure?points=20001', 422, { code: 'query.invalid', parameter: 'points' }],
    ['/rimPressure?zoom=2', 422, { code: 'query.invalid', parameter: 'zoom' }],
    ['/rimPressure?passage=2', 404, { code: 'request.not-found' }],
    ['/brakeForce', 404, { code: 'request.not-found' }],
  ])('asked for as %s are refused', async (rest, status, problem) => {
    expect(await ask(rest)).toMatchObject({ status, body: problem });
  });
});
