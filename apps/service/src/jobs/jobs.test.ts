import { createHash, randomUUID } from 'node:crypto';
import { canonicalJson } from '@breakbook/evidence';
import { PostgresRawStore, tables, verifyRecords } from '@breakbook/records';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { connected, queryAs } from '../../../../tests/database.js';
import { keepLot, sendBurst, specimenKey } from '../../../../tests/sent-runs.js';
import { type Answer, type SignedInCaller, startTestService, type TestService } from '../../../../tests/service.js';

let service: TestService;
let head: SignedInCaller;
let operator: SignedInCaller;
let lot: string;

beforeAll(async () => {
  service = await startTestService();
  lot = (await keepLot(service.records, 3)).lot.lot;
  operator = await service.signIn('b-ravenscroft');
  head = await service.signIn('a-grossmann');
  for (const specimen of [1, 2, 3].map(specimenKey)) {
    await sendBurst(operator, specimen);
    const seen = (await head.ask('GET', `/api/runs/run-${specimen}`)).headers.get('etag') ?? '';
    const decided = await head.ask('POST', `/api/runs/run-${specimen}/validity`, {
      body: { validity: 'valid' },
      headers: { 'if-match': seen },
    });
    expect(decided.status).toBe(201);
  }
}, 120_000);
afterAll(() => service.close());

const evaluations = () => service.records.read(service.lab.labId).find(tables.Evaluation, {});
const entries = (action: string) =>
  queryAs<{ n: number }>(
    service.database.owner,
    `select count(*)::int as n from ledger_entry where action = '${action}'`,
  ).then(([row]) => row?.n);

async function ended(asked: Answer): Promise<Answer['body']> {
  expect(asked, JSON.stringify(asked.body)).toMatchObject({ status: 202 });
  return endOf(asked.body.id);
}

async function endOf(id: string): Promise<Answer['body']> {
  for (const deadline = Date.now() + 25_000; Date.now() < deadline; ) {
    const { body } = await head.ask('GET', `/api/jobs/${id}`);
    if (!['waiting', 'running'].includes(body.state)) return body;
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
  throw new Error(`Job ${id} did not end.`);
}

describe('an evaluation, asked for', () => {
  it('is done as a job, with one ledger entry, and says what the runs say', async () => {
    const before = await entries('lot evaluated');
    const asked = await head.ask('POST', `/api/lots/${lot}/evaluations`);
    expect(asked.headers.get('location')).toBe(`/api/jobs/${asked.body.id}`);
    const job = await ended(asked);
    expect(job).toMatchObject({ state: 'done', kind: 'lot evaluation', askedBy: 'a-grossmann' });
    expect(await entries('lot evaluated')).toBe((before ?? 0) + 1);

    const { body } = await head.ask('GET', `/api/evaluations/${job.evaluation}`);
    expect(body.judgements.map(({ run }: { run: string }) => run)).toEqual(
      [1, 2, 3].map((n) => `run-${specimenKey(n)}`),
    );
    const run = (await head.ask('GET', '/api/runs/run-X0001')).body;
    expect(canonicalJson(body.judgements[0].verdicts)).toBe(canonicalJson(run.verdicts));
    expect(body.result).toMatchObject({ lot, outcome: 'undecided' });
    expect((await head.ask('GET', `/api/lots/${lot}/evaluations`)).body.items[0].number).toBe(job.evaluation);
  });

  it('becomes a report, once, whose bytes are those that were kept', async () => {
    const evaluation = (await head.ask('GET', `/api/lots/${lot}/evaluations`)).body.items[0].number;
    const at = `/api/evaluations/${evaluation}/documents`;
    const job = await ended(await head.ask('POST', at, { body: { kind: 'lot test report' } }));
    expect(job, JSON.stringify(job.problems)).toMatchObject({ state: 'done' });

    const document = await head.ask('GET', `/api/documents/${job.document}`);
    expect(document.body).toMatchObject({ kind: 'lot test report', lot, evaluation });
    expect(document.body.content.identity).toMatchObject({ number: `LTR-${lot}-${evaluation}`, signatures: [] });
    const pdf = await head.ask('GET', `/api/documents/${job.document}.pdf`);
    expect(pdf.headers.get('content-type')).toBe('application/pdf');
    expect(new TextDecoder('latin1').decode(pdf.body.slice(0, 5))).toBe('%PDF-');
    expect(createHash('sha256').update(pdf.body).digest('hex')).toBe(document.body.sha256);
    const list = await head.ask('GET', '/api/documents?order=newest&limit=1');
    expect(list.body.items).toMatchObject([{ number: job.document }]);

    expect(await head.ask('POST', at, { body: { kind: 'lot test report' } })).toMatchObject({
      status: 409,
      body: { code: 'state.conflict' },
    });
  });

  it('fails with the reason in the job where it cannot be done', async () => {
    const [evaluation] = await evaluations();
    if (!evaluation) throw new Error('There is no evaluation to copy.');
    const { lotId, planRevisionId, software, content } = evaluation;
    const old = await service.records.change(service.lab, 'evaluated long ago', (rows) =>
      rows.add(tables.Evaluation, { lotId, planRevisionId, software, content, recordsId: null }),
    );
    const at = `/api/evaluations/${old.number}/documents`;
    const job = await ended(await head.ask('POST', at, { body: { kind: 'lot test report' } }));
    expect(job).toMatchObject({ state: 'failed', problems: [{ code: 'state.conflict', action: expect.any(String) }] });
  });

  it('is refused where the lot is not there, and to who has not the duty', async () => {
    expect(await head.ask('POST', '/api/lots/no-such-lot/evaluations')).toMatchObject({ status: 404 });
    expect(await head.ask('GET', `/api/jobs/${randomUUID()}`)).toMatchObject({ status: 404 });
    expect(await head.ask('GET', '/api/jobs/not-an-id')).toMatchObject({ status: 404 });
    expect(await operator.ask('POST', `/api/lots/${lot}/evaluations`)).toMatchObject({ status: 403 });
  });
});

describe('a job', () => {
  it('tells those who look on how it goes, until it has ended', async () => {
    const { body } = await head.ask('POST', `/api/lots/${lot}/evaluations`);
    const stream = await head.fetch(`/api/jobs/${body.id}/events`);
    expect(stream.headers.get('content-type')).toBe('text/event-stream');
    const events = (await stream.text())
      .split('\n\n')
      .filter((one) => one.startsWith('event: job\n'))
      .map((one) => JSON.parse(one.slice('event: job\ndata: '.length)));
    expect(events.at(-1)).toMatchObject({ id: body.id, state: 'done', evaluation: expect.any(Number) });
    expect(events.map(({ state }) => state)).toEqual(
      [...events.map(({ state }) => state)].sort(
        (a, b) => ['waiting', 'running', 'done'].indexOf(a) - ['waiting', 'running', 'done'].indexOf(b),
      ),
    );
  });

  it('that is cancelled leaves nothing, however far it is', async () => {
    const before = (await evaluations()).length;
    // The work is done and its change is open, held up at its last row but one.
    const hold = await connected(service.database.owner);
    await hold.query('begin; lock table evaluation_input in exclusive mode');
    const { id } = (await head.ask('POST', `/api/lots/${lot}/evaluations`)).body;
    for (let held = 0; held === 0; ) {
      await new Promise((resolve) => setTimeout(resolve, 50));
      const [row] = await queryAs<{ n: number }>(
        service.database.owner,
        `select count(*)::int as n from pg_stat_activity where datname = current_database()
         and wait_event_type = 'Lock' and query ilike 'insert into "evaluation_input"%'`,
      );
      held = row?.n ?? 0;
    }
    expect((await head.ask('GET', `/api/jobs/${id}`)).body.state).toBe('running');
    expect(await head.ask('POST', `/api/jobs/${id}/cancel`)).toMatchObject({ body: { state: 'cancelled' } });
    await hold.query('commit');
    await hold.end();

    await waitUntilDone([id]);
    expect((await evaluations()).length).toBe(before);
    expect(await head.ask('POST', `/api/jobs/${id}/cancel`)).toMatchObject({
      status: 409,
      body: { code: 'state.conflict' },
    });
  });

  it('is cancelled by nobody but who asked for it', async () => {
    const job = await ended(await head.ask('POST', `/api/lots/${lot}/evaluations`));
    expect(await operator.ask('POST', `/api/jobs/${job.id}/cancel`)).toMatchObject({ status: 403 });
  });

  it('whose process died while at it is begun again, and has its effect once', async () => {
    const before = (await evaluations()).length;
    const job = await ended(await head.ask('POST', `/api/lots/${lot}/evaluations`));
    const another = await ended(await head.ask('POST', `/api/lots/${lot}/evaluations`));
    // As a process leaves them that died after its effect was kept, and one that died before: taken, and held by nobody.
    const client = await connected(service.database.owner);
    await client.query(
      "update jobs.job set state = 'active', started_on = now() - interval '1 hour', completed_on = null where id = any($1)",
      [[job.id, another.id]],
    );
    await client.query('set session_replication_role = replica');
    await client.query('delete from job_end where id = $1', [another.id]);
    await client.query('set session_replication_role = origin');
    await client.end();

    expect((await endOf(another.id)).state).toBe('done');
    await waitUntilDone([job.id, another.id]);
    // The job whose end was taken away here was done a second time; the other was not.
    expect((await evaluations()).length).toBe(before + 3);
  });

  it('leaves records that hold', async () => {
    const reader = service.records.read(service.lab.labId);
    expect(await verifyRecords(reader, new PostgresRawStore())).toMatchObject({ holds: true });
  });
});

async function waitUntilDone(ids: string[]): Promise<void> {
  for (;;) {
    const open = await queryAs(
      service.database.owner,
      `select id from jobs.job where state <> 'completed' and id in (${ids.map((id) => `'${id}'`).join()})`,
    );
    if (open.length === 0) return;
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
}
