import { randomUUID } from 'node:crypto';
import { SOFTWARE } from '@breakbook/lab';
import { PostgresRawStore, verifyRecords } from '@breakbook/records';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { keepLot, sendBurst, specimenKey } from '../../../../tests/sent-runs.js';
import { type Answer, type SignedInCaller, startTestService, type TestService } from '../../../../tests/service.js';
import { tamper } from '../../../../tests/tamper.js';

let service: TestService;
let auditor: SignedInCaller;
let lot: string;
const specimens = [1, 2, 3].map(specimenKey);

beforeAll(async () => {
  service = await startTestService();
  lot = (await keepLot(service.records, 3)).lot.lot;
  const operator = await service.signIn('b-ravenscroft');
  auditor = await service.signIn('an-auditor', ['audit']);
  for (const specimen of specimens) await sendBurst(operator, specimen);
}, 120_000);
afterAll(() => service.close());

/** Asks for a job and waits until it is done. */
async function done(who: SignedInCaller, path: string): Promise<Answer['body']> {
  const asked = await who.ask('POST', path, { headers: { 'idempotency-key': randomUUID() } });
  expect(asked, JSON.stringify(asked.body)).toMatchObject({ status: 202 });
  const at = asked.headers.get('location') ?? '';
  for (const deadline = Date.now() + 40_000; Date.now() < deadline; ) {
    const { body } = await who.ask('GET', at);
    if (body.state === 'done') return body;
    if (!['waiting', 'running'].includes(body.state)) throw new Error(JSON.stringify(body));
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
  throw new Error(`${path} did not end.`);
}

/** Has every run read again; the answer once it is done. */
async function recomputed(): Promise<Answer['body']> {
  const { recomputation } = await done(auditor, '/api/recomputations');
  return (await auditor.ask('GET', `/api/recomputations/${recomputation}`)).body;
}

describe('a recomputation', () => {
  it('finds every run identical, is kept with its number, and stands in the ledger', async () => {
    const answer = await recomputed();
    expect(answer).toMatchObject({
      number: 1,
      by: 'an-auditor',
      software: SOFTWARE,
      runs: 3,
      identical: 3,
      different: [],
      refused: [],
    });
    const listed = await auditor.ask('GET', '/api/recomputations');
    expect(listed.body.items).toMatchObject([{ number: 1, runs: 3, identical: 3, different: 0, refused: 0 }]);
    expect(await verifyRecords(service.records.read(service.lab.labId), new PostgresRawStore())).toMatchObject({
      holds: true,
    });
  });

  it('judges every evaluation again from the records kept beside it', async () => {
    const head = await service.signIn('a-grossmann');
    const { evaluation } = await done(head, `/api/lots/${lot}/evaluations`);
    // What is decided afterwards is another judgement's: this one stands on the records as they were.
    const run = `/api/runs/run-${specimens[0]}`;
    const seen = (await head.ask('GET', run)).headers.get('etag') ?? '';
    const decided = await head.ask('POST', `${run}/validity`, {
      body: { validity: 'valid' },
      headers: { 'if-match': seen },
    });
    expect(decided).toMatchObject({ status: 201 });
    // The other is of the lot as it was brought in, without runs.
    expect(await recomputed()).toMatchObject({
      identical: 3,
      evaluations: { evaluations: 2, identical: 2, different: [], refused: [] },
    });

    const sql = `update evaluation set content = jsonb_set(content, '{lines,0,planned}', '99') where number = $1`;
    expect(await tamper(service.database.owner, sql, [evaluation])).toBe(1);
    expect(await recomputed()).toMatchObject({
      identical: 3,
      evaluations: {
        identical: 1,
        different: [
          {
            evaluation,
            lot,
            software: SOFTWARE,
            count: 1,
            differences: [{ pointer: '/result/lines/0/planned', kept: '99' }],
          },
        ],
      },
    });
    const [listed] = (await auditor.ask('GET', '/api/recomputations')).body.items;
    expect(listed.evaluations).toEqual({ evaluations: 2, identical: 1, different: 1, refused: 0 });
  });

  it('takes a reading by another version of the software, with the same numbers, for identical', async () => {
    const sql = `update reading set content = jsonb_set(content, '{software}', '"breakbook 0.0.9"')`;
    expect(await tamper(service.database.owner, sql)).toBe(3);
    expect(await recomputed()).toMatchObject({ identical: 3, different: [] });
  });

  it('finds a stored number that somebody changed, where it stands, and since which revision', async () => {
    const path = '{characteristics,0,value,value}';
    const sql = `update reading set content = jsonb_set(content, '${path}', to_jsonb((content #>> '${path}')::float8 + 1e-9))
      where run_id = (select id from run where key = $1)`;
    expect(await tamper(service.database.owner, sql, [`run-${specimens[1]}`])).toBe(1);
    const answer = await recomputed();
    expect(answer).toMatchObject({
      runs: 3,
      identical: 2,
      different: [
        {
          run: `run-${specimens[1]}`,
          method: { method: 'BURST-CLAMP', revision: 2 },
          software: 'breakbook 0.0.9',
          count: 1,
          differences: [{ pointer: '/characteristics/0/value/value' }],
        },
      ],
    });
    const [{ kept, now, place }] = answer.different[0].differences;
    expect(place).toMatch(/^characteristics \/ \w+ \/ value \/ value$/);
    expect(Number(kept) - Number(now)).toBeCloseTo(1e-9, 12);
  });

  it('tells of a run whose bytes are damaged, and reads the others all the same', async () => {
    const sql = `update raw_chunk set bytes = set_byte(bytes, 400, get_byte(bytes, 400) # 1) where raw_id =
      (select raw_id from run_file f join run r on r.id = f.run_id where r.key = $1)`;
    expect(await tamper(service.database.owner, sql, [`run-${specimens[0]}`])).toBe(1);
    expect(await recomputed()).toMatchObject({
      identical: 1,
      different: [{ run: `run-${specimens[1]}` }],
      refused: [{ run: `run-${specimens[0]}`, because: expect.stringContaining('damaged') }],
    });
  });
});
