import { PostgresRawStore, verifyRecords } from '@breakbook/records';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { keepKeyedLot, keyedLot, VALID } from '../keyed-lot.ts';
import { type SignedInCaller, startTestService, type TestService } from '../service.ts';

/** Five times as many as there are trials in the long form: 500 with a hundred; `npm test` does ten. */
const ROUNDS = process.env.FAULT_TRIALS === undefined ? 10 : 5 * Number(process.env.FAULT_TRIALS);
const AT_ONCE = 8;
const LOT = 'CONTESTED';

let service: TestService;
let deciders: SignedInCaller[];

beforeAll(async () => {
  service = await startTestService();
  await keepKeyedLot(service, keyedLot([{ kPa: 1900, validity: VALID }], { lot: LOT }));
  const reviewer = await service.signIn('a-grossmann');
  const { headers } = await reviewer.ask('GET', `/api/runs/${LOT}-r1`);
  const reviewed = await reviewer.ask('POST', `/api/runs/${LOT}-r1/reviews`, {
    body: {},
    headers: { 'if-match': headers.get('etag') ?? '' },
  });
  expect(reviewed.status).toBe(201);
  deciders = [await service.signIn('t-ibanez'), await service.signIn('second-decider', ['decide'])];
}, 120_000);
afterAll(() => service.close());

describe('a lot that several people decide about at once', () => {
  it(
    `is decided once: ${AT_ONCE} at once, accepting and refusing, in each of ${ROUNDS} rounds`,
    async () => {
      let replaces: number | undefined;
      for (let round = 0; round < ROUNDS; round += 1) {
        if (round % 50 === 49) for (const one of deciders) await one.again();
        const { body: seen } = await (deciders[0] as SignedInCaller).ask('GET', `/api/lots/${LOT}/disposition`);
        const answers = await Promise.all(
          Array.from({ length: AT_ONCE }, (_, n) =>
            (deciders[n % 4 < 2 ? 0 : 1] as SignedInCaller).ask('POST', `/api/lots/${LOT}/dispositions`, {
              body: {
                outcome: n % 2 ? 'accepted' : 'not accepted',
                reason: `round ${round}`,
                shown: seen.sha256,
                ...(replaces === undefined ? {} : { replaces }),
              },
            }),
          ),
        );
        const taken = answers.filter(({ status }) => status === 201);
        expect(taken, `round ${round}: ${JSON.stringify(answers.map(({ body }) => body))}`).toHaveLength(1);
        for (const { status, body } of answers.filter((one) => one.status !== 201))
          expect({ status, code: body.code }).toEqual({ status: 409, code: 'state.conflict' });
        replaces = taken[0]?.body.number;
      }
      const { items } = (await (deciders[0] as SignedInCaller).ask('GET', `/api/lots/${LOT}/dispositions`)).body;
      expect(items).toHaveLength(ROUNDS);
      expect(items.filter(({ state }: { state: string }) => state === 'in force')).toHaveLength(1);
      const report = await verifyRecords(service.records.read(service.lab.labId), new PostgresRawStore());
      expect(report.holds, JSON.stringify(report)).toBe(true);
    },
    60_000 + 6_000 * ROUNDS,
  );
});
