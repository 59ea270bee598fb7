import { randomUUID } from 'node:crypto';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { Readable } from 'node:stream';
import { gzipSync } from 'node:zlib';
import { PROBLEM_CODES } from '@breakbook/lab';
import { UNREAD_QUOTA } from '@breakbook/records';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { queryAs } from '../../../../tests/database.js';
import { burstFile, burstRun, formOf, keepLot, specimenKey } from '../../../../tests/sent-runs.js';
import { type Answer, type SignedInCaller, startTestService, type TestService } from '../../../../tests/service.js';
import { UPLOAD_BOUNDS } from './bounds.js';

let service: TestService;
let operator: SignedInCaller;
/** Recorded before everything else: its bytes and its specimen are taken. */
const TAKEN = specimenKey(1);
const FREE = specimenKey(2);
let taken = 2;

beforeAll(async () => {
  service = await startTestService();
  await keepLot(service.records, 40);
  operator = await service.signIn('b-ravenscroft');
  const first = await upload(formOf(burstRun(TAKEN), { 'log.csv': burstFile(TAKEN) }));
  expect(first.status).toBe(201);
}, 120_000);
afterAll(() => service.close());

type Body = FormData | Uint8Array | string | ReadableStream;

async function upload(body: Body, headers: Record<string, string | undefined> = {}): Promise<Answer> {
  const response = await operator.fetch('/api/runs', {
    method: 'POST',
    body: body as BodyInit,
    headers: withoutUndefined({ 'idempotency-key': randomUUID(), ...headers }) as Record<string, string>,
    // Undici asks for it where a body is a stream.
    duplex: 'half',
  } as RequestInit);
  return { status: response.status, headers: response.headers, body: await response.json() };
}

function withoutUndefined(members: object): object {
  return Object.fromEntries(Object.entries(members).filter(([, value]) => value !== undefined));
}

const BOUNDARY = 'one-and-the-same';
const FORM = { 'content-type': `multipart/form-data; boundary=${BOUNDARY}` };

interface Part {
  head: string;
  body: string | Uint8Array;
}

/** A form written by hand, so that it can be wrong in any way. */
function form(parts: Part[], end = `--${BOUNDARY}--\r\n`): Uint8Array {
  return Buffer.concat([
    ...parts.flatMap(({ head, body }) => [
      Buffer.from(`--${BOUNDARY}\r\n${head}\r\n\r\n`),
      Buffer.from(body as string),
      Buffer.from('\r\n'),
    ]),
    Buffer.from(end),
  ]);
}

const described = (run: unknown): Part => ({
  head: 'Content-Disposition: form-data; name="run"\r\nContent-Type: application/json',
  body: typeof run === 'string' ? run : JSON.stringify(run),
});
const file = (body: string | Uint8Array = burstFile(FREE), name = 'log.csv', field = 'file'): Part => ({
  head: `Content-Disposition: form-data; name="${field}"; filename="${name}"`,
  body,
});

/** A refused upload: what is sent, the answer, and whether its bytes are kept unread. */
type Row = [what: string, body: () => Body, status: number, code: string, more?: object, headers?: object];

const run = burstRun(FREE);
const withFile =
  (content: string | Uint8Array, name = 'log.csv') =>
  () =>
    formOf(run, { [name]: content });
const withRun = (change: object) => () => formOf({ ...run, ...change }, { 'log.csv': burstFile(FREE) });
const lines = (change: (line: string, index: number) => string) => burstFile(FREE).split('\n').map(change).join('\n');
const UNREAD = { stored: 'unread', unreadFileId: expect.any(String) };
const NOT_STORED = { stored: false };

const FRAMING: Row[] = [
  ['no key', () => formOf(run), 400, 'idempotency.key-missing', {}, { 'idempotency-key': undefined }],
  ['a key that is none', () => formOf(run), 400, 'idempotency.key-invalid', {}, { 'idempotency-key': 'too short' }],
  [
    'JSON instead of a form',
    () => JSON.stringify(run),
    415,
    'body.media-type',
    // Told before anything of the body is looked at.
    { stored: undefined },
    { 'content-type': 'application/json' },
  ],
  ['a form without boundary', () => form([]), 400, 'request.malformed', {}, { 'content-type': 'multipart/form-data' }],
  ['no part at all', () => form([]), 400, 'body.empty', {}, FORM],
  ['nothing at all', () => new Uint8Array(), 400, 'body.empty', {}, FORM],
  ['another boundary than the header names', () => 'x'.repeat(100), 400, 'request.malformed', {}, FORM],
  [
    'a form that ends within a file',
    () => form([described(run), file()]).slice(0, 9000),
    400,
    'request.malformed',
    {},
    FORM,
  ],
  ['a form without its closing boundary', () => form([described(run), file()], ''), 400, 'request.malformed', {}, FORM],
  [
    'a part without a head',
    () => form([described(run), { head: 'X: y', body: 'a' }]),
    400,
    'request.malformed',
    {},
    FORM,
  ],
  [
    'a line break in the name of a file',
    () => form([described(run), file('a', 'a\nb.csv')]),
    400,
    'request.malformed',
    {},
    FORM,
  ],
  [
    'a part of another name',
    () => form([described(run), file('a', 'a.csv', 'data')]),
    400,
    'file.missing',
    { found: 'data' },
    FORM,
  ],
  [
    'a part called __proto__',
    () => form([described(run), file('a', 'a.csv', '__proto__')]),
    400,
    'request.malformed',
    {},
    FORM,
  ],
  ['two descriptions', () => form([described(run), described(run), file()]), 400, 'request.too-many-parts', {}, FORM],
  [
    'more files than are read',
    () => form([described(run), ...Array.from({ length: UPLOAD_BOUNDS.files + 1 }, (_, n) => file('a', `${n}.csv`))]),
    400,
    'request.too-many-parts',
    {},
    FORM,
  ],
  [
    'far more parts than are read',
    () => form([described(run), ...Array.from({ length: 300 }, (_, n) => file('a', `${n}.csv`))]),
    400,
    'request.too-many-parts',
    {},
    FORM,
  ],
  ['no file, where the method reads one', () => formOf(run), 400, 'file.missing'],
  [
    'two files, where the layout reads one',
    () => formOf(run, { 'a.csv': burstFile(FREE), 'b.csv': burstFile('other') }),
    400,
    'request.too-many-parts',
  ],
];

const DESCRIPTION: Row[] = [
  ['no JSON', () => form([described('{'), file()]), 400, 'json.syntax', {}, FORM],
  ['a doubled key', () => form([described('{"run":"a","run":"b"}'), file()]), 400, 'json.duplicate-key', {}, FORM],
  [
    'no UTF-8',
    () => form([{ ...described(''), body: Uint8Array.of(0x22, 0xff, 0x22) }]),
    400,
    'json.encoding',
    {},
    FORM,
  ],
  ['a list', () => form([described('[]'), file()]), 422, 'body.not-object', {}, FORM],
  ['more than 256 kB', () => form([described(`"${'x'.repeat(300_000)}"`), file()]), 413, 'body.too-large', {}, FORM],
  [
    'a decision on validity',
    withRun({ validity: { validity: 'valid' } }),
    422,
    'body.unknown-field',
    { pointer: '/validity' },
  ],
  ['no plan', withRun({ plan: undefined }), 422, 'body.missing-field', { pointer: '/plan' }],
  [
    'text of nothing but blanks',
    withRun({ deviations: ['  '] }),
    422,
    'body.text-invalid',
    { pointer: '/deviations/0' },
  ],
  ['a specimen that is not there', withRun({ specimen: 'X9999' }), 422, 'body.not-found', { pointer: '/specimen' }],
  [
    'a plan revision that is not there',
    withRun({ plan: { ...run.plan, revision: 99 } }),
    422,
    'body.not-found',
    { pointer: '/plan/revision' },
  ],
  ['a plan line that is not there', withRun({ planLine: 'Z' }), 422, 'body.not-found', { pointer: '/planLine' }],
  ['a rig that is not there', withRun({ rig: 'R99' }), 422, 'body.not-found', { pointer: '/rig' }],
  [
    'a layout that is not there',
    withRun({ layoutRevision: 99 }),
    422,
    'body.not-found',
    { pointer: '/layoutRevision' },
  ],
  ['an operator who is not there', withRun({ operator: 'nobody' }), 422, 'body.not-found', { pointer: '/operator' }],
  [
    'a failure mode the method does not know',
    withRun({ examination: { ...run.examination, modes: [{ code: 'ZZ-ZZ' }] } }),
    422,
    'meta.unknown',
    { pointer: '/examination/modes/0/code', ...UNREAD },
  ],
  [
    'another method revision than the plan asks for',
    withRun({ methodRevision: 1 }),
    409,
    'state.conflict',
    { pointer: '/method', ...UNREAD },
  ],
  [
    'a run before its specimen was received',
    withRun({ startedAt: '2020-01-01T00:00:00Z' }),
    409,
    'state.conflict',
    { pointer: '/startedAt', ...UNREAD },
  ],
];

const CONTENT: Row[] = [
  ['a file without bytes', withFile(''), 422, 'file.empty'],
  ['a file of line ends', withFile('\n\n\n'), 422, 'file.empty'],
  ['a PDF called CSV', withFile('%PDF-1.7\nlog'), 415, 'file.type-mismatch'],
  ['a picture called CSV', withFile(Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 13, 10, 26, 10)), 415, 'file.type-mismatch'],
  ['a program called CSV', withFile('\x7fELF\x02\x01\x01'), 415, 'file.type-mismatch'],
  ['gzip', withFile(gzipSync(burstFile(FREE))), 415, 'file.compressed', UNREAD],
  ['a zip archive', withFile('PK\x03\x04log.csv'), 415, 'file.compressed', NOT_STORED],
  ['UTF-16', withFile(Buffer.from(`\ufeff${burstFile(FREE)}`, 'utf16le')), 422, 'file.encoding', UNREAD],
  ['a zero-filled tail', withFile(`${burstFile(FREE)}${'\0'.repeat(512)}`), 422, 'file.nul-byte', UNREAD],
  [
    'a decimal comma',
    withFile(lines((line, n) => (n === 100 ? line.replace('.', ',') : line))),
    422,
    'csv.row-width',
    { file: 'log.csv', line: 101, ...UNREAD },
  ],
  [
    'text in a number column',
    withFile(lines((line, n) => (n === 200 ? line.replace(/,[^,]+,/, ',OL,') : line))),
    422,
    'number.syntax',
    { file: 'log.csv', line: 201, column: 2, found: 'OL', ...UNREAD },
  ],
  [
    'a column without unit',
    withFile(lines((line, n) => (n === 5 ? line.replace(' [bar]', '') : line))),
    422,
    'unit.missing',
    { line: 6, column: 2, ...UNREAD },
  ],
  ['a file cut off within a line', withFile(burstFile(FREE).slice(0, -12)), 422, 'file.truncated', UNREAD],
  ['the file of another specimen', withFile(burstFile(specimenKey(9))), 422, 'meta.unknown', UNREAD],
  [
    'a specimen that is destroyed already',
    () => formOf(burstRun(TAKEN, { run: 'again' }), { 'log.csv': burstFile(TAKEN, 2700) }),
    409,
    'specimen.destroyed',
    { detail: expect.stringContaining(`run-${TAKEN}`), ...UNREAD },
  ],
  [
    'the bytes of another run',
    () => formOf(run, { 'other name.csv': burstFile(TAKEN) }),
    409,
    'run.duplicate',
    { detail: expect.stringContaining(`run-${TAKEN}`), ...NOT_STORED },
  ],
];

const NAMES: Row[] = [
  ['no name', () => form([described(run), file('a', '')]), 422, 'file.name-invalid', {}, FORM],
  ['a name with a zero byte', () => form([described(run), file('a', 'a\0b.csv')]), 422, 'file.name-invalid', {}, FORM],
  [
    'a name over 1,000 bytes',
    () => form([described(run), file('a', 'ä'.repeat(501))]),
    422,
    'file.name-invalid',
    {},
    FORM,
  ],
  ['one name twice', () => form([described(run), file('a'), file('b')]), 422, 'file.name-invalid', {}, FORM],
];

/** Everything that a refusal must leave as it was; of unread files there may be one more, with its one entry. */
async function state() {
  const [counts] = await queryAs<Record<string, number>>(
    service.database.owner,
    `select (select count(*)::int from run) as runs, (select count(*)::int from reading) as readings,
       (select count(*)::int from run_file) as files, (select count(*)::int from destruction) as destroyed,
       (select last from short_number where id = 'run') as number,
       (select count(*)::int from answered_upload) as answers,
       (select count(*)::int from unread_file) as unread, (select count(*)::int from ledger_entry) as entries`,
  );
  const { unread = 0, entries = 0, ...rest } = counts ?? {};
  return { ...rest, entriesOfOthers: entries - unread, spools: spools() };
}

const spools = () => fs.readdirSync(os.tmpdir()).filter((name) => name.startsWith(`breakbook-spool-${process.pid}-`));

describe.each([
  ['the form', FRAMING],
  ['the description of the run', DESCRIPTION],
  ['the content of a file', CONTENT],
  ['the name of a file', NAMES],
])('%s', (_, rows) => {
  it.each(rows)(
    '%s: refused by its code, and nothing else is changed',
    async (_what, body, status, code, more = {}, headers = {}) => {
      const before = await state();
      const answer = await upload(body(), headers as Record<string, string | undefined>);
      const stored = 'stored' in more ? {} : NOT_STORED;
      expect(answer, JSON.stringify(answer.body)).toMatchObject({
        status,
        body: { code, status, ...stored, ...withoutUndefined(more) },
      });
      expect(answer.headers.get('content-type')).toBe('application/problem+json; charset=utf-8');
      expect(PROBLEM_CODES).toContain(code);
      expect(answer.body.detail.length).toBeGreaterThan(10);
      expect(await state()).toEqual(before);
    },
  );
});

describe('a file longer than is taken', () => {
  it('is refused on the count of its bytes, while it is still being sent', async () => {
    const before = await state();
    const piece = Buffer.alloc(1024 * 1024, '0.000,0.001\n');
    async function* endless() {
      yield form([described(run)], '');
      yield Buffer.from(`--${BOUNDARY}\r\n${file('', 'long.csv').head}\r\n\r\n`);
      // Without the header content-length, and with more to come than is ever read.
      for (let n = 0; n <= UPLOAD_BOUNDS.fileBytes / piece.length; n++) yield piece;
      yield Buffer.from(`\r\n--${BOUNDARY}--\r\n`);
    }
    const answer = await upload(Readable.toWeb(Readable.from(endless())) as ReadableStream, FORM);
    expect(answer).toMatchObject({ status: 413, body: { code: 'file.too-large', file: 'long.csv', stored: false } });
    expect(await state()).toEqual(before);
  }, 60_000);
});

describe('files of a run that are together longer than is taken', () => {
  it('are refused on the count of their bytes', async () => {
    const before = await state();
    const piece = Buffer.alloc(1024 * 1024, '0.000,0.001\n');
    const pieces = 100;
    expect(pieces * piece.length).toBeLessThan(UPLOAD_BOUNDS.fileBytes);
    expect(3 * pieces * piece.length).toBeGreaterThan(UPLOAD_BOUNDS.bytes);
    async function* three() {
      yield form([described(run)], '');
      for (const name of ['1.csv', '2.csv', '3.csv']) {
        yield Buffer.from(`--${BOUNDARY}\r\n${file('', name).head}\r\n\r\n`);
        for (let n = 0; n < pieces; n++) yield piece;
        yield Buffer.from('\r\n');
      }
      yield Buffer.from(`--${BOUNDARY}--\r\n`);
    }
    const answer = await upload(Readable.toWeb(Readable.from(three())) as ReadableStream, FORM);
    expect(answer, JSON.stringify(answer.body)).toMatchObject({
      status: 413,
      body: { code: 'file.too-large', file: '3.csv', stored: false },
    });
    expect(await state()).toEqual(before);
  }, 60_000);
});

describe('a key', () => {
  it('under which an upload is still being sent: 409, and the answer when it is whole', async () => {
    const specimen = specimenKey(++taken);
    const key = randomUUID();
    const whole = form([described(burstRun(specimen)), file(burstFile(specimen))]);
    let goOn = () => {};
    const waiting = new Promise<void>((resolve) => {
      goOn = resolve;
    });
    async function* halting() {
      yield whole.slice(0, 9000);
      await waiting;
      yield whole.slice(9000);
    }
    const begun = spools().length;
    const first = upload(Readable.toWeb(Readable.from(halting())) as ReadableStream, {
      ...FORM,
      'idempotency-key': key,
    });
    while (spools().length === begun) await new Promise((resolve) => setTimeout(resolve, 5));
    const second = await upload(whole, { ...FORM, 'idempotency-key': key });
    expect(second).toMatchObject({ status: 409, body: { code: 'idempotency.in-progress', stored: false } });
    goOn();
    expect(await first).toMatchObject({ status: 201, body: { specimen } });
    expect(await upload(whole, { ...FORM, 'idempotency-key': key })).toMatchObject({ status: 201, body: { specimen } });
  });
});

describe('one upload fifty times at once under one key', () => {
  it('is one run, in whatever order they come; another body under that key is refused', async () => {
    const specimen = specimenKey(++taken);
    const headers = { 'idempotency-key': randomUUID() };
    const before = await state();
    const send = (text: string) => upload(formOf(burstRun(specimen), { 'log.csv': text }), headers);
    const answers = await Promise.all(Array.from({ length: 50 }, () => send(burstFile(specimen))));
    const first = await send(burstFile(specimen));
    expect(first).toMatchObject({ status: 201, body: { run: `run-${specimen}` } });
    for (const { status, body } of answers)
      if (status === 201) expect(body).toEqual(first.body);
      else expect({ status, code: body.code }).toEqual({ status: 409, code: 'idempotency.in-progress' });
    const { runs = 0, entriesOfOthers } = before as unknown as { runs: number; entriesOfOthers: number };
    expect(await state()).toMatchObject({ runs: runs + 1, entriesOfOthers: entriesOfOthers + 1 });
    expect(await send(burstFile(specimen, 2700))).toMatchObject({
      status: 422,
      body: { code: 'idempotency.mismatch' },
    });
  });
});

describe('a hostile name', () => {
  it.each([
    '../../../etc/cron.d/breakbook',
    'C:\\Windows\\system32\\drivers\\etc\\hosts',
    'CON',
    '<script>alert(1)</script>.csv',
    '=1+1.csv',
    'burst\u202egnp.csv',
    `${'n'.repeat(996)}.csv`,
  ])('is kept letter by letter and does no harm: %s', async (name) => {
    const specimen = specimenKey(++taken);
    const answer = await upload(form([described(burstRun(specimen)), file(burstFile(specimen), name)]), FORM);
    expect(answer, JSON.stringify(answer.body)).toMatchObject({ status: 201 });
    const kept = await operator.ask('GET', `/api/runs/run-${specimen}`);
    expect(kept.body.files[0].name).toBe(name);
    const served = await operator.fetch(`/api/runs/run-${specimen}/files/1`);
    expect(await served.text()).toBe(burstFile(specimen));
    expect(served.headers.get('content-disposition')).toMatch(/^attachment; filename\*=UTF-8''[\w%.!~-]+$/);
    expect(decodeURIComponent(served.headers.get('content-disposition') ?? '')).not.toMatch(/[/\\]/);
    expect(served.headers.get('x-content-type-options')).toBe('nosniff');
    expect(fs.existsSync(path.resolve(os.tmpdir(), name))).toBe(false);
  });
});

it('the same bytes refused again are the same unread file', async () => {
  const text = lines((line, n) => (n === 300 ? line.replace(/,[^,]+,/, ',Err,') : line));
  const first = await upload(formOf(run, { 'log.csv': text }));
  const before = await state();
  const again = await upload(formOf(run, { 'another name.csv': text }));
  expect(again.body.unreadFileId).toBe(first.body.unreadFileId);
  expect(await state()).toEqual(before);
});

it('a caller with a hundred unread files waiting has no further one kept, and is told so beside the file’s own fault', async () => {
  const broken = (n: number) => `${burstFile(FREE, 1)}0.005,${'x'.repeat(n + 1)},0.001,21.80\n`;
  const [{ waiting = 0 } = {}] = await queryAs<{ waiting: number }>(
    service.database.owner,
    `select count(*)::int as waiting from unread_file file
     where not exists (select from unread_closing closing where closing.unread_file_id = file.id)`,
  );
  for (let n = waiting; n < UNREAD_QUOTA.files; n += 1)
    expect((await upload(formOf(run, { 'log.csv': broken(n) }))).body).toMatchObject(UNREAD);
  const before = await state();
  const answer = await upload(formOf(run, { 'log.csv': broken(UNREAD_QUOTA.files) }));
  expect(answer, JSON.stringify(answer.body)).toMatchObject({
    status: 422,
    body: { code: 'number.syntax', line: 8, stored: false },
  });
  const told = answer.body.errors.map(({ code }: { code: string }) => code);
  expect(told).toEqual(['number.syntax', 'unread.quota']);
  expect(answer.body.errorCount).toBe(2);
  expect(answer.body.unreadFileId).toBeUndefined();
  expect(await state()).toEqual(before);
  // Bytes that wait already are still known as the file they are.
  expect((await upload(formOf(run, { 'log.csv': broken(UNREAD_QUOTA.files - 1) }))).body).toMatchObject(UNREAD);
}, 120_000);
