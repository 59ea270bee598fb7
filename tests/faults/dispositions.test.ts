import { PostgresRawStore, verifyRecords } from '@breakbook/records';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { keepKeyedLot, keyedLot, VALID } from '../keyed-lot.ts';
import { type SignedInCaller, startTestService, type TestService } from '../service.ts';
import { reviewKeyedLot } from '../signed-report.ts';

/** Five times as many as there are trials in the long form: 500 with a hundred; `npm test` does ten. */
const ROUNDS = process.env.FAULT_TRIALS === undefined ? 10 : 5 * Number(process.env.FAULT_TRIALS);
const AT_ONCE = 8;
/** A lot is decided about so often; then comes another, since each decision shows all that were before it. */
const ON_EACH = 25;

let service: TestService;
let deciders: SignedInCaller[];

beforeAll(async () => {
  service = await startTestService();
  // Its people come with a lot.
  await contestedLot('CONTESTED-0');
  deciders = [await service.signIn('t-ibanez'), await service.signIn('second-decider', ['decide'])];
}, 120_000);
afterAll(() => service.close());

/** A lot whose one run somebody has reviewed. */
async function contestedLot(lot: string): Promise<void> {
  await keepKeyedLot(service, keyedLot([{ kPa: 1900, validity: VALID }], { lot }));
  await reviewKeyedLot(await service.signIn('a-grossmann'), lot, 1);
}

describe('a lot that several people decide about at once', () => {
  it(
    `is decided once: ${AT_ONCE} at once, accepting and refusing, in each of ${ROUNDS} rounds`,
    async () => {
      let replaces: number | undefined;
      let lot = '';
      for (let round = 0; round < ROUNDS; round += 1) {
        if (round % ON_EACH === 0) {
          lot = `CONTESTED-${round}`;
          if (round > 0) await contestedLot(lot);
          for (const one of deciders) await one.again();
          replaces = undefined;
        }
        const { body: seen } = await (deciders[0] as SignedInCaller).ask('GET', `/api/lots/${lot}/disposition`);
        const answers = await Promise.all(
          Array.from({ length: AT_ONCE }, (_, n) =>
            (deciders[n % 4 < 2 ? 0 : 1] as SignedInCaller).ask('POST', `/api/lots/${lot}/dispositions`, {
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
      for (let first = 0; first < ROUNDS; first += ON_EACH) {
        const { items } = (
          await (deciders[0] as SignedInCaller).ask('GET', `/api/lots/CONTESTED-${first}/dispositions`)
        ).body;
        expect(items).toHaveLength(Math.min(ON_EACH, ROUNDS - first));
        expect(items.filter(({ state }: { state: string }) => state === 'in force')).toHaveLength(1);
      }
      const report = await verifyRecords(service.records.read(service.lab.labId), new PostgresRawStore());
      expect(report.holds, JSON.stringify(report)).toBe(true);
    },
    60_000 + 6_000 * ROUNDS,
  );
});
