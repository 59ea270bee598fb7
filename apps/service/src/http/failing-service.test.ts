import { setMaxListeners } from 'node:events';
import net from 'node:net';
import { Writable } from 'node:stream';
import { pino } from 'pino';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { queryAs } from '../../../../tests/database.ts';
import { burstFile, burstRun, formOf, keepLot, specimenKey } from '../../../../tests/sent-runs.ts';
import { type Answer, type SignedInCaller, startTestService, type TestService } from '../../../../tests/service.ts';
import { Workers } from '../workers/workers.js';
import { ProblemAnswer } from './problem-details.js';

let service: TestService;
let operator: SignedInCaller;
let unused = 0;
const logged: string[] = [];
const log = pino({ level: 'warn' }, new Writable({ write: (line, _, done) => done(void logged.push(String(line))) }));

beforeAll(async () => {
  service = await startTestService({ log });
  await keepLot(service.records, 20);
  operator = await service.signIn('b-ravenscroft');
}, 120_000);
afterAll(() => service.close());

const owner = <T extends object>(sql: string) => queryAs<T & Record<string, unknown>>(service.database.owner, sql);

function send(caller: SignedInCaller, specimen: string, key: string): Promise<Answer> {
  return caller.ask('POST', '/api/runs', {
    body: formOf(burstRun(specimen), { 'log.csv': burstFile(specimen) }),
    headers: { 'idempotency-key': key },
  });
}

/** What a refused or failed upload must leave as it was. */
async function kept() {
  const [counts] = await owner(
    `select (select count(*)::int from run) as runs, (select count(*)::int from run_file) as files,
       (select count(*)::int from raw_bytes) as raws, (select count(*)::int from destruction) as destroyed,
       (select count(*)::int from unread_file) as unread, (select count(*)::int from ledger_entry) as entries,
       (select count(*)::int from answered_upload) as answers,
       (select last from short_number where id = 'run') as number`,
  );
  return counts;
}

/** Has the database refuse every row of a table with this code, as it does where its disk or itself fails. */
async function failing<T>(table: string, code: string, work: () => Promise<T>): Promise<T> {
  await owner(`create function fail_here() returns trigger language plpgsql as
    $$ begin raise exception 'the innermost cause at /var/lib/data' using errcode = '${code}'; end $$`);
  await owner(`create trigger fail_here before insert on ${table} for each row execute function fail_here()`);
  try {
    return await work();
  } finally {
    await owner('drop function fail_here cascade');
  }
}

function expectTeaching(answer: Answer): void {
  expect(ProblemAnswer.safeParse(answer.body).error).toBeUndefined();
  expect(answer.headers.get('content-type')).toBe('application/problem+json; charset=utf-8');
  expect(JSON.stringify(answer.body)).not.toMatch(/innermost|\/var\/lib|insert into|node_modules|\.ts:/i);
}

// Codes of PostgreSQL: its manual, appendix A (53100 disk_full, 40P01 deadlock_detected, XX000 internal_error).
describe('an upload that the database fails', () => {
  it.each([
    ['no room left', 'raw_chunk', '53100', 507, 'storage.full'],
    ['no room left for the entry', 'ledger_entry', '53100', 507, 'storage.full'],
    ['two changes that waited for each other', 'run', '40P01', 503, 'service.busy'],
    ['the server shuts down', 'run', '57P01', 503, 'service.unavailable'],
    ['a fault of our own', 'run', 'XX000', 500, 'internal'],
  ])('%s: keeps nothing, says what to do, and is taken when sent again', async (_, table, postgres, status, code) => {
    const specimen = specimenKey(++unused);
    const key = `failing-${specimen}`;
    const before = await kept();
    const answer = await failing(table, postgres, () => send(operator, specimen, key));
    expect(answer, JSON.stringify(answer.body)).toMatchObject({ status, body: { code, status } });
    expectTeaching(answer);
    if (status === 503) expect(Number(answer.headers.get('retry-after'))).toBeGreaterThanOrEqual(1);
    else expect(answer.headers.get('retry-after')).toBeNull();
    expect(await kept()).toEqual(before);
    expect(await send(operator, specimen, key)).toMatchObject({ status: 201, body: { specimen } });
  });

  it('by our own fault: tells an id, under which the log has the whole cause', async () => {
    const specimen = specimenKey(++unused);
    const { body } = await failing('run', 'XX000', () => send(operator, specimen, `cause-${specimen}`));
    const id = body.instance.slice('/problems/'.length);
    expect(body.detail).toContain(id);
    expect(body.detail).toContain('not your input');
    expect(logged.filter((line) => line.includes(id)).join()).toContain('the innermost cause');
  });
});

describe('a database that is away', () => {
  it('is told as 503 with Retry-After by every route, and the service goes on once it is back', async () => {
    const way = await wayTo(service.database.service);
    const through = await startTestService({ on: service.database, database: way.connection, log });
    try {
      const caller = await through.signIn('b-ravenscroft');
      const specimen = specimenKey(++unused);
      expect((await through.anonymous.ask('GET', '/health/ready')).status).toBe(200);
      const before = await kept();
      await way.close();
      const answers = [
        await caller.ask('GET', '/api/lots'),
        await caller.ask('POST', '/api/products', { body: {} }),
        await send(caller, specimen, `away-${specimen}`),
        await through.anonymous.ask('POST', '/api/sign-in', { body: { person: 'b-ravenscroft', passphrase: 'x y z' } }),
        await through.anonymous.ask('GET', '/health/ready'),
      ];
      for (const answer of answers) {
        expect(answer, JSON.stringify(answer.body)).toMatchObject({
          status: 503,
          body: { code: 'service.unavailable' },
        });
        expect(Number(answer.headers.get('retry-after'))).toBeGreaterThanOrEqual(1);
        expectTeaching(answer);
      }
      expect((await through.anonymous.ask('GET', '/health/live')).status, 'it lives all the same').toBe(200);
      expect(await kept()).toEqual(before);
      await way.open();
      expect(await send(caller, specimen, `away-${specimen}`)).toMatchObject({ status: 201 });
    } finally {
      await way.open();
      await through.app.close();
      await way.close();
    }
  });
});

describe('more asked for than is done', () => {
  it('is told as 503 with Retry-After while the line is full, and taken when it is not', async () => {
    const workers = service.app.get(Workers);
    const question = { method: 'summary', values: [1, 2, 3] };
    // Each takes about a second, so that none comes to its end before the request is in.
    const long = new TextEncoder().encode(`{"method":"summary","values":[${'1,'.repeat(3_000_000)}1]}`);
    const controller = new AbortController();
    setMaxListeners(0, controller.signal);
    const inLine: Promise<unknown>[] = [];
    let refused = 0;
    while (refused === 0 && inLine.length < 200) {
      inLine.push(
        workers.run('compute', { body: long }, { signal: controller.signal }).catch((error: { code?: string }) => {
          if (error.code === 'service.busy') refused += 1;
        }),
      );
      await Promise.resolve();
      await Promise.resolve();
    }
    const answer = await operator.ask('POST', '/api/compute', { body: question });
    controller.abort();
    await Promise.all(inLine);
    expect(answer).toMatchObject({ status: 503, body: { code: 'service.busy' } });
    expect(Number(answer.headers.get('retry-after'))).toBeGreaterThanOrEqual(1);
    expectTeaching(answer);
    expect(await operator.ask('POST', '/api/compute', { body: question })).toMatchObject({ status: 200 });
  });

  it('is told of a second verification of the records while one is going on', async () => {
    const auditor = await service.signIn('auditor', ['audit']);
    const answers = await Promise.all([1, 2, 3].map(() => auditor.ask('POST', '/api/ledger/verification')));
    const told = answers.filter(({ status }) => status === 503);
    expect(answers.filter(({ body }) => body.holds === true).length).toBeGreaterThanOrEqual(1);
    expect(told.length).toBeGreaterThanOrEqual(1);
    for (const { body, headers } of told) {
      expect(body.code).toBe('service.busy');
      expect(Number(headers.get('retry-after'))).toBeGreaterThanOrEqual(1);
    }
  });
});

/** A way to the database that can be closed, as a cable can be pulled, and opened again. */
async function wayTo(connection: TestService['database']['service']) {
  const open = new Set<net.Socket>();
  const server = net.createServer((near) => {
    const far = net.connect(`${connection.host}/.s.PGSQL.${connection.port}`);
    for (const [one, other] of [
      [near, far],
      [far, near],
    ] as const) {
      open.add(one);
      one.pipe(other);
      one.on('error', () => other.destroy());
      one.on('close', () => other.destroy());
    }
  });
  let port = 0;
  const listen = () => new Promise<void>((resolve) => server.listen(port, '127.0.0.1', resolve));
  await listen();
  port = (server.address() as net.AddressInfo).port;
  return {
    connection: { ...connection, host: '127.0.0.1', port },
    async open() {
      if (!server.listening) await listen();
    },
    async close() {
      if (!server.listening) return;
      const closed = new Promise((resolve) => server.close(resolve));
      for (const socket of open) socket.destroy();
      await closed;
    },
  };
}
