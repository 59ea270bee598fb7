import type { LotBundle, Plan, Problem } from '@breakbook/lab';
import { tables } from '@breakbook/records';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { keepKeyedLot, keyedLot, VALID } from '../../../../tests/keyed-lot.js';
import { type Answer, type SignedInCaller, startTestService, type TestService } from '../../../../tests/service.js';

const LOT = 'WHAT-IF';
let service: TestService;
let bundle: LotBundle;
let reader: SignedInCaller;
let definer: SignedInCaller;

const LIMIT = { limit: 'OCF-W-7.2', revision: 1 };
const ask = (body: unknown): Promise<Answer> => reader.ask('POST', `/api/lots/${LOT}/what-ifs`, { body });

beforeAll(async () => {
  service = await startTestService();
  const runs = [1800, 1700, 1900].map((kPa) => ({ kPa, validity: VALID }));
  bundle = await keepKeyedLot(service, keyedLot(runs, { lot: LOT }));
  reader = await service.signIn('a-reader', ['audit']);
  definer = await service.signIn('a-definer', ['define']);
}, 120_000);
afterAll(() => service.close());

/** How many rows of each kind of evidence that a judgement would leave. */
async function kept() {
  const rows = service.records.read(service.lab.labId);
  const { manager, labId } = rows;
  return Promise.all(
    [tables.LedgerEntry, tables.Evaluation, tables.VerdictSet, tables.Reading, tables.Document].map((table) =>
      manager.count(table, { where: { labId } }),
    ),
  );
}

describe('what if a limit had another value', () => {
  it('answers what would follow, says that it is none, and leaves nothing', async () => {
    const before = await kept();
    const stands = (await reader.ask('GET', `/api/lots/${LOT}/sheet`)).body.lot;
    expect(stands.outcome).toBe('meets the plan');

    const answer = await ask({ limits: [{ ...LIMIT, value: 1750 }] });
    expect(answer).toMatchObject({ status: 200 });
    const { result, judgements } = answer.body;
    expect(result.outcome).toBe('does not meet the plan');
    expect(result.sentence).toMatch(/^What-if, nothing is decided by it: /);
    expect(result.whatIf.changed).toEqual([
      expect.stringMatching(/^limit OCF-W-7\.2 rev\. 1: at least 1.750.kPa in place of/),
    ]);
    expect(judgements.map((one: { verdicts: { outcome: string }[] }) => one.verdicts[0]?.outcome)).toEqual([
      'conforms',
      'does not conform',
      'conforms',
    ]);

    expect(await kept()).toEqual(before);
    expect((await reader.ask('GET', `/api/lots/${LOT}/sheet`)).body.lot).toEqual(stands);
  });

  it('cannot be kept as an evaluation, whoever tries', async () => {
    const { body } = await ask({ limits: [{ ...LIMIT, value: 1750 }] });
    const [evaluation] = await service.records.read(service.lab.labId).find(tables.Evaluation, {});
    if (!evaluation) throw new Error('The lot has no evaluation.');
    const { lotId, planRevisionId, recordsId, software } = evaluation;
    const keep = service.records.change(service.lab, 'lot evaluated', (rows) =>
      rows.add(tables.Evaluation, { lotId, planRevisionId, recordsId, software, content: body.result }),
    );
    await expect(keep).rejects.toThrow(/evaluation_is_no_what_if/);
  });
});

describe('what if another plan revision held', () => {
  it('takes one that is only proposed, and calls it so', async () => {
    const [line] = bundle.plan.lines as [Plan['lines'][number]];
    const plan: Plan = { ...bundle.plan, revision: 2, lines: [{ ...line, specimens: 5 }] };
    const proposed = await definer.ask('POST', `/api/plans/${plan.plan}/revisions`, {
      body: { content: plan, reason: 'five rims would say more' },
    });
    expect(proposed, JSON.stringify(proposed.body)).toMatchObject({ status: 201 });

    const { body } = await ask({ plan: { plan: plan.plan, revision: 2 } });
    expect(body.result).toMatchObject({ outcome: 'undecided', plan: { plan: plan.plan, revision: 2 } });
    expect(body.result.whatIf.changed[0]).toBe(
      `plan ${plan.plan} rev. 2 (only proposed) in place of ${plan.plan} rev. 1`,
    );
    expect(body.result.lines[0].criteria[0].because).toBe('3 of 5 planned valid runs make the claim');
  });
});

describe('a what-if is refused', () => {
  it.each<[string, unknown, number, Partial<Problem>]>([
    ['that changes nothing', {}, 422, { pointer: '' }],
    [
      'of a plan that is not kept',
      { plan: { plan: 'NONE', revision: 1 } },
      422,
      { code: 'body.not-found', pointer: '/plan' },
    ],
    [
      'of a limit that the plan does not name',
      { limits: [{ limit: 'NONE', revision: 1, value: 1 }] },
      422,
      { code: 'body.not-found', pointer: '/limits/0' },
    ],
    [
      'of a limit as it is',
      { limits: [{ ...LIMIT, value: 1500 }] },
      422,
      { code: 'body.range', pointer: '/limits/0/value' },
    ],
    [
      'with a number that is text',
      { limits: [{ ...LIMIT, value: '1500' }] },
      422,
      { code: 'body.type', pointer: '/limits/0/value' },
    ],
  ])('%s', async (_, body, status, problem) => {
    const answer = await ask(body);
    expect(answer.status).toBe(status);
    expect(answer.body).toMatchObject(problem);
  });

  it('of a lot that is not there', async () => {
    expect(
      await reader.ask('POST', '/api/lots/NONE/what-ifs', { body: { limits: [{ ...LIMIT, value: 1 }] } }),
    ).toMatchObject({ status: 404 });
  });
});
