import { Layout } from '@breakbook/lab';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { approve } from '../../../../tests/approved.js';
import { queryAs } from '../../../../tests/database.js';
import { burstFile, burstRun, formOf, keepLot, specimenKey } from '../../../../tests/sent-runs.js';
import { type SignedInCaller, startTestService, type TestService } from '../../../../tests/service.js';

let service: TestService;
let engineer: SignedInCaller;
let operator: SignedInCaller;

beforeAll(async () => {
  service = await startTestService();
  await keepLot(service.records, 4);
  engineer = await service.signIn('layout-engineer', ['define']);
  operator = await service.signIn('b-ravenscroft');
}, 120_000);
afterAll(() => service.close());

/** What a logger set to German writes: semicolons, decimal commas, units in round brackets, a title above. */
const GERMAN = [
  'Pruefstand 7',
  'Zeit (s);Druck (bar);Temp (Cel)',
  '0,00;0,02;21,8',
  '0,01;0,03;21,8',
  '0,02;-0,05;OL',
  '0,03;0,08;21,9',
  '',
].join('\r\n');
const LAYOUT: Layout = {
  layout: 'R1-log',
  revision: 2,
  rig: 'R1',
  form: 'layout 1',
  text: { delimiter: 'semicolon', decimalMark: 'comma', preambleLines: 1 },
  header: { kind: 'name and unit', brackets: 'round' },
  time: { column: 'Zeit', kind: 'time' },
  columns: [
    { column: 'Druck', channel: 'rimPressure', scale: -1 },
    { column: 'Temp', channel: 'roomTemperature', noReading: ['OL'] },
  ],
  requiredMetadata: [],
  metadata: 'none',
};

function formWith(files: string[], layout?: unknown): FormData {
  const form = new FormData();
  if (layout !== undefined) form.append('layout', new Blob([JSON.stringify(layout)]), 'layout.json');
  for (const [index, text] of files.entries()) form.append('file', new Blob([text]), `log-${index}.csv`);
  return form;
}
const propose = (files: string[], by = engineer) =>
  by.ask('POST', '/api/layouts/proposals', { body: formWith(files), headers: {} });
const tried = (text: string, layout: unknown) =>
  engineer.ask('POST', '/api/layouts/trials', { body: formWith([text], layout), headers: {} });

describe('a file somebody drops', () => {
  it('is told as it is understood, nothing about units or channels guessed, nothing kept', async () => {
    const count = () =>
      queryAs<{ n: string }>(
        service.database.owner,
        'select count(*) as n from ledger_entry union all select count(*) from raw_bytes',
      );
    const before = await count();
    const answer = await propose([GERMAN]);
    expect(answer, JSON.stringify(answer.body)).toMatchObject({
      status: 200,
      body: {
        layout: { text: { delimiter: 'semicolon', decimalMark: 'comma', preambleLines: 1 }, layout: '', rig: '' },
        columns: [
          { column: 1, name: 'Zeit', unit: 's' },
          { column: 2, name: 'Druck', unit: 'bar', first: expect.arrayContaining(['0,02']) },
          { column: 3, name: 'Temp', unit: 'Cel', words: ['OL'] },
        ],
      },
    });
    for (const { channel } of answer.body.layout.columns) expect(channel).toBe('');
    expect(await count()).toEqual(before);
  });

  it('is shown as a layout would read it: seconds, scale and sign, and where there is no reading', async () => {
    const answer = await tried(GERMAN, LAYOUT);
    expect(answer, JSON.stringify(answer.body)).toMatchObject({
      status: 200,
      body: {
        read: true,
        rows: 4,
        columns: [
          { name: 'Zeit', unit: 's' },
          { name: 'Druck', unit: 'bar', channel: 'rimPressure', readings: 4 },
          { name: 'Temp', unit: 'Cel', channel: 'roomTemperature', readings: 3 },
        ],
        first: [
          [0, 0.01, 0.02, 0.03],
          [-0.02, -0.03, 0.05, -0.08],
          [21.8, 21.8, null, 21.9],
        ],
      },
    });
  });

  it('is answered with every problem, by line and column, where the layout does not read it', async () => {
    const { noReading: _, ...without } = LAYOUT.columns[1] ?? { column: '', channel: '' };
    const answer = await tried(GERMAN, { ...LAYOUT, columns: [LAYOUT.columns[0], without] });
    expect(answer, JSON.stringify(answer.body)).toMatchObject({
      status: 200,
      body: { read: false, problemCount: 1, problems: [{ code: 'number.syntax', line: 5, column: 3, found: 'OL' }] },
    });
    // A unit of another kind than the channel of the methods has.
    const wrong = await tried(GERMAN.replace('(bar)', '(N)'), LAYOUT);
    expect(wrong.body.problems).toMatchObject([{ code: 'unit.wrong-dimension', line: 2, column: 2 }]);
  });

  it('is refused with a layout that is none, and in a form that is none', async () => {
    expect(await tried(GERMAN, { ...LAYOUT, text: { delimiter: 'comma', decimalMark: 'comma' } })).toMatchObject({
      status: 422,
      body: { code: 'body.range', pointer: '/text/delimiter' },
    });
    expect(await propose([])).toMatchObject({ status: 400 });
    expect(await propose([GERMAN, GERMAN])).toMatchObject({ status: 400, body: { code: 'request.too-many-parts' } });
    expect(await propose(['no table of numbers at all\n'])).toMatchObject({
      status: 422,
      body: { code: 'header.missing' },
    });
    expect(await propose([GERMAN], await service.signIn('only-reviews', ['review']))).toMatchObject({ status: 403 });
  });

  it('comes from an unread file too, bit for bit, and is read again once its layout is kept', async () => {
    const specimen = specimenKey(1);
    // The same record as the rig writes it now, in another dress.
    const dressed = burstFile(specimen)
      .split('\n')
      .map((line) => (line.startsWith('#') ? line : line.replaceAll(',', ';')))
      .join('\n');
    const refused = await operator.ask('POST', '/api/runs', {
      body: formOf(burstRun(specimen), { 'log.csv': dressed }),
      headers: { 'idempotency-key': 'dressed-otherwise-1' },
    });
    expect(refused, JSON.stringify(refused.body)).toMatchObject({ status: 422, body: { stored: 'unread' } });
    const unread = `/api/unread/${refused.body.unreadFileId}`;
    const part = await engineer.fetch(`${unread}/parts/1`);
    const bytes = await part.text();
    expect(bytes).toBe(dressed);
    expect((await engineer.ask('GET', `${unread}/parts/2`)).status).toBe(404);

    const { content } = (await engineer.ask('GET', '/api/layouts/R1-log')).body;
    const next = { ...content, revision: content.revision + 1, text: { ...content.text, delimiter: 'semicolon' } };
    expect((await tried(bytes, next)).body).toMatchObject({ read: true, flags: [] });
    const kept = await engineer.ask('POST', '/api/layouts/R1-log/revisions', {
      body: { content: next, reason: 'the logger parts cells by semicolons from now on' },
    });
    expect(kept, JSON.stringify(kept.body)).toMatchObject({ status: 201, body: { standing: { state: 'proposed' } } });
    const readUnder = () =>
      operator.ask('POST', `${unread}/read`, { body: burstRun(specimen, { layoutRevision: next.revision }) });
    expect(await readUnder()).toMatchObject({
      status: 409,
      body: { code: 'state.conflict', pointer: '/layoutRevision', found: 'proposed' },
    });
    const colleague = await service.signIn('layout-approver', ['define']);
    expect(await approve(colleague, kept.body.standing.proposal)).toMatchObject({ status: 200 });
    const read = await readUnder();
    expect(read, JSON.stringify(read.body)).toMatchObject({ status: 201 });
    expect((await engineer.ask('GET', unread)).body).toMatchObject({ state: 'read' });
  });
});

it('takes the layout of this test for one', () => {
  expect(Layout.safeParse(LAYOUT).success).toBe(true);
});
