import { randomUUID } from 'node:crypto';
import { gzipSync } from 'node:zlib';
import type { Layout } from '@breakbook/lab';
import { PostgresRawStore, verifyRecords } from '@breakbook/records';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { proposeAndApprove } from '../../../../tests/approved.js';
import { burstFile, burstRun, formOf, keepLot, lotWithoutRuns, specimenKey } from '../../../../tests/sent-runs.js';
import { type SignedInCaller, startTestService, type TestService } from '../../../../tests/service.js';

/*
 * A rig's logger was set otherwise than its layout says, and the wheel is broken: what it wrote is refused, kept, and
 * read by the next revision of the layout. The last row of each is what an operator has to do: one request.
 */
let service: TestService;
let operator: SignedInCaller;
let engineer: SignedInCaller;
let colleague: SignedInCaller;
let unused = 0;

beforeAll(async () => {
  service = await startTestService();
  await keepLot(service.records, 20);
  operator = await service.signIn('b-ravenscroft');
  engineer = await service.signIn('layout-keeper', ['define']);
  colleague = await service.signIn('layout-approver', ['define']);
}, 120_000);
afterAll(() => service.close());

const [first] = lotWithoutRuns().layouts;
if (!first) throw new Error('the sample lot has a layout');

/** Adds the next revision of the rig's layout, with this in place of what it said, and answers which it is. */
async function revised(change: { [Key in keyof Layout]?: unknown }): Promise<number> {
  const before = await engineer.ask('GET', `/api/layouts/${first?.layout}`);
  const revision = before.body.content.revision + 1;
  await proposeAndApprove(engineer, colleague, `/api/layouts/${first?.layout}/revisions`, {
    content: { ...first, ...change, revision },
    reason: 'the logger was set anew',
  });
  return revision;
}

/** Rows by the clock of the rig, date and time of day in two columns; the file says nothing else. */
function byTheClock(text: string, begins = '2026-09-28T07:50:00Z'): string {
  const shown = (seconds: string) => new Date(Date.parse(begins) + 1000 * Number(seconds)).toISOString();
  return text
    .replace(/^#.*\n/gm, '')
    .replace('time [s]', 'date,clock')
    .replace(/^\d+\.\d+(?=,)/gm, (seconds) => shown(seconds).replace('T', ',').replace('Z', ''));
}
/** Lisbon's clock is an hour ahead of UTC in summer: the run that began at 06:50Z stands there at 07:50. */
const TWO_COLUMNS = {
  column: 'date',
  clockColumn: 'clock',
  kind: 'date-time',
  form: 'YYYY-MM-DD hh:mm:ss.f',
  zone: 'Europe/Lisbon',
};
const WITHOUT_METADATA = { metadata: 'none', requiredMetadata: [] };

describe('a file that the next layout reads', () => {
  it.each<[string, (text: string) => string | Uint8Array, { [Key in keyof Layout]?: unknown }, string]>([
    ['packed by gzip', (text) => gzipSync(text), { text: { gzipUpTo: 10_000_000 } }, 'file.compressed'],
    [
      'with semicolons and decimal commas',
      (text) => text.replaceAll(',', ';').replaceAll(/(\d)\.(\d)/g, '$1,$2'),
      { text: { delimiter: 'semicolon', decimalMark: 'comma' } },
      'csv.delimiter',
    ],
    [
      'with date and time of day in two columns',
      (text) => byTheClock(text),
      { ...WITHOUT_METADATA, time: TWO_COLUMNS },
      'header.missing-channel',
    ],
    [
      'with both, in UTF-16 and packed',
      (text) => gzipSync(Buffer.from(byTheClock(text), 'utf16le')),
      { ...WITHOUT_METADATA, time: TWO_COLUMNS, text: { encoding: 'utf-16le', gzipUpTo: 10_000_000 } },
      'file.compressed',
    ],
  ])('is kept, and read in one action: %s', async (_, written, change, code) => {
    const specimen = specimenKey(++unused);
    const run = burstRun(specimen);
    const bytes = Buffer.from(written(burstFile(specimen)));
    const refused = await operator.ask('POST', '/api/runs', {
      body: formOf(run, { 'log.csv': bytes }),
      headers: { 'idempotency-key': randomUUID() },
    });
    expect(refused.body).toMatchObject({ stored: 'unread', unreadFileId: expect.any(String) });
    const { errors = [refused.body] } = refused.body;
    expect(errors.map((one: { code: string }) => one.code)).toContain(code);

    const layoutRevision = await revised(change);
    const read = await operator.ask('POST', `/api/unread/${refused.body.unreadFileId}/read`, {
      body: { ...run, layoutRevision },
    });
    expect(read, JSON.stringify(read.body)).toMatchObject({ status: 201, body: { run: run.run, flags: [] } });

    const kept = await operator.ask('GET', `/api/runs/${run.run}`);
    const burst = kept.body.results.find((one: { characteristic: string }) => one.characteristic === 'burstPressure');
    // The ramp of the made file ends at 21 bar, by its own formula.
    expect(burst.value.value).toBeGreaterThan(2050);
    expect(burst.value.value).toBeLessThan(2150);
    const file = await operator.fetch(`/api/runs/${run.run}/files/1`);
    expect(Buffer.from(await file.arrayBuffer()).equals(bytes)).toBe(true);
  });

  it('stays refused, and kept once, where the next layout does not read it either', async () => {
    const specimen = specimenKey(++unused);
    const run = burstRun(specimen, { layoutRevision: await revised({ ...WITHOUT_METADATA, time: TWO_COLUMNS }) });
    // On this day clocks in Lisbon show 01:00 to 02:00 twice (EU Directive 2000/84/EC: last Sunday of October, 01:00 UTC).
    const doubtful = byTheClock(burstFile(specimen), '2026-10-25T01:30:00Z');
    const send = () =>
      operator.ask('POST', '/api/runs', {
        body: formOf(run, { 'log.csv': doubtful }),
        headers: { 'idempotency-key': randomUUID() },
      });
    const refused = await send();
    expect(refused).toMatchObject({
      status: 422,
      body: { code: 'meta.date', line: 2, column: 1, stored: 'unread', detail: expect.stringContaining('twice') },
    });
    expect((await send()).body.unreadFileId).toBe(refused.body.unreadFileId);
  });
});

it('leaves records that hold, entry by entry and byte by byte', async () => {
  const reader = service.records.read(service.lab.labId);
  expect(await verifyRecords(reader, new PostgresRawStore())).toMatchObject({ holds: true });
});
