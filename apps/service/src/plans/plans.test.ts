import type { LotBundle, Plan, Problem } from '@breakbook/lab';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { keepKeyedLot, keyedLot, VALID } from '../../../../tests/keyed-lot.js';
import { type SignedInCaller, startTestService, type TestService } from '../../../../tests/service.js';

let service: TestService;
let definer: SignedInCaller;
let bundle: LotBundle;

beforeAll(async () => {
  service = await startTestService();
  bundle = await keepKeyedLot(service, keyedLot([{ kPa: 1900, validity: VALID }], { lot: 'PLANNED' }));
  definer = await service.signIn('a-definer', ['define']);
}, 120_000);
afterAll(() => service.close());

type Line = Plan['lines'][number];
const LIMIT = { limit: 'OCF-W-7.2', revision: 1 };
const bound = (change: object = {}) => ({
  kind: 'tolerance bound',
  criterion: 'A1',
  limit: LIMIT,
  distribution: 'normal',
  coverage: 0.9,
  confidence: 0.95,
  ...change,
});

/** A plan of ten rims that fits, but for this. */
function plan(change: object, claim: object = {}): unknown {
  const [line] = bundle.plan.lines as [Line];
  return {
    ...bundle.plan,
    plan: 'P-BAD',
    revision: 1,
    claim: { ...bundle.plan.claim, population: 'process', ...claim },
    lines: [{ ...line, specimens: 10, criteria: [bound()], ...change }],
  };
}

describe('a plan that cannot show what it claims is refused, by place and with what to do', () => {
  it.each<[string, () => unknown, Partial<Problem>, RegExp]>([
    [
      'confidence 95',
      () => plan({ criteria: [bound({ confidence: 95 })] }),
      { code: 'body.range', pointer: '/lines/0/criteria/0/confidence' },
      /write 0\.95 for 95 %/,
    ],
    [
      'a criterion on a characteristic that the method does not give',
      () => plan({ characteristic: 'brakeHeat' }),
      { code: 'meta.unknown', pointer: '/lines/0/characteristic' },
      /which method BURST-TABLE rev\. 1 does not give\. It gives burstPressure/,
    ],
    [
      'fewer specimens than the method needs for a bound',
      () => plan({ specimens: 4 }),
      { code: 'state.conflict', pointer: '/lines/0/criteria/0' },
      /prints no bound on fewer than 5\. Plan at least 5, or drop the claim of a confidence/,
    ],
    [
      'fewer specimens than the claim needs',
      () =>
        plan({
          criteria: [{ kind: 'zero failures', criterion: 'A1', limit: LIMIT, reliability: 0.9, confidence: 0.95 }],
        }),
      { code: 'state.conflict', pointer: '/lines/0/criteria/0' },
      /needs 29 specimens even if none fails, and line A has 10\. Plan 29, or claim less/,
    ],
    [
      'any of several claims, without the risk of all together',
      () => plan({ criteria: [bound(), bound({ criterion: 'A2', coverage: 0.99 })], combination: { rule: 'any' } }),
      { code: 'body.missing-field', pointer: '/lines/0/combination/jointRisk' },
      /^\/lines\/0\/combination\/jointRisk: .* how often at most .* must add up to no more\. .*"jointRisk": 0\.1; or write \{"rule": "all"\}/,
    ],
    [
      'a combination of no known rule',
      () => plan({ criteria: [bound(), bound({ criterion: 'A2', coverage: 0.99 })], combination: { rule: 'best' } }),
      { code: 'body.enum', pointer: '/lines/0/combination/rule' },
      /whoever may choose among claims is wrong more often than each of them/,
    ],
    [
      'any of several claims that together risk more than is said',
      () =>
        plan({
          criteria: [bound(), bound({ criterion: 'A2', coverage: 0.99 })],
          combination: { rule: 'any', jointRisk: 0.05 },
        }),
      { pointer: '/lines/0/combination/jointRisk' },
      /the risks of the criteria add up to 0\.1; raise their confidence/,
    ],
    [
      'stages that do not add up',
      () => plan({ stages: [5, 4] }),
      { pointer: '/lines/0/stages' },
      /adds up to 9 specimens, and the line asks for 10/,
    ],
    [
      'pooling with earlier lots for a claim about one lot alone',
      () =>
        plan(
          {},
          {
            population: 'lot',
            pooling: {
              rule: 'earlier lots',
              lots: 3,
              test: 'k-sample Anderson-Darling',
              level: 0.05,
              shiftThatMatters: 0.05,
            },
          },
        ),
      { pointer: '/claim/pooling' },
      /the claim is about the units of this lot alone/,
    ],
  ])('%s', async (_, body, problem, says) => {
    const answer = await definer.ask('POST', '/api/plans', { body: body() });
    expect(answer.status, JSON.stringify(answer.body)).toBeGreaterThanOrEqual(409);
    expect(answer.body).toMatchObject(problem);
    expect(answer.body.detail).toMatch(says);
  });

  it('a limit without a unit', async () => {
    const [limit] = bundle.limits;
    const { unit: _, ...bare } = { ...limit, limit: 'L-BAD' } as Record<string, unknown>;
    const answer = await definer.ask('POST', '/api/limits', { body: bare });
    expect(answer.status).toBe(422);
    expect(answer.body).toMatchObject({ pointer: '/unit' });
    expect(answer.body.detail).toMatch(/unit/);
  });

  it('takes the same without any of this', async () => {
    expect(await definer.ask('POST', '/api/plans', { body: plan({ stages: [5, 5] }) })).toMatchObject({ status: 201 });
  });
});
