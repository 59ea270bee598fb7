import { tables } from '@breakbook/records';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { givePassphrase } from '../../apps/service/src/sign-in/credentials.ts';
import { hashPassphrase } from '../../apps/service/src/sign-in/passphrase-hash.ts';
import { queryAs } from '../database.ts';
import { startTestService, type TestService } from '../service.ts';

/** `npm run faults` guesses as often as somebody would who means it; `npm test` shows that the guessing is counted. */
const LONG = process.env.FAULT_TRIALS !== undefined;
const ON_ONE = LONG ? 200 : 20;
const ACCOUNTS = LONG ? 500 : 5;
const ON_EACH = 10;
const TIMED = LONG ? 200 : 10;

const RIGHT = 'rims that nobody breaks twice';
/** Wrong ones that are looked at before waiting begins. */
const FREE = 5;
/** The longest that the owner waits, in s. */
const LONGEST = 15 * 60;

let service: TestService;
beforeAll(async () => {
  // No bound on what one network address may ask: whoever means it comes from many.
  service = await startTestService();
  // One hash for all of them: what is tried here is the counting, and no passphrase is the right one.
  const hash = await hashPassphrase(RIGHT);
  const keys = ['owner', 'known', ...Array.from({ length: ACCOUNTS }, (_, n) => `account-${n}`)];
  await service.records.change(service.lab, 'people added', async (rows) => {
    for (const key of keys) {
      const person = await rows.add(tables.Person, { key, kind: 'person' });
      const content = { person: key, name: key, role: 'tester', duties: [] };
      await rows.addVersion(tables.PersonVersion, person.id, { content });
      await givePassphrase(rows, person, hash, { cause: 'first start', temporary: false });
    }
  });
}, 180_000);
afterAll(() => service.close());

interface Tried {
  status: number;
  retryAfter: number;
}

async function tried(person: string, passphrase: string): Promise<Tried> {
  const { status, headers } = await service.anonymous.ask('POST', '/api/sign-in', { body: { person, passphrase } });
  return { status, retryAfter: Number(headers.get('retry-after')) };
}

/** Looked at and wrong, or told to wait; nothing else. */
function countOf(answers: readonly Tried[]): { lookedAt: number; waits: number[] } {
  const lookedAt = answers.filter(({ status }) => status === 401).length;
  const waits = answers.flatMap(({ status, retryAfter }) => (status === 429 ? [retryAfter] : []));
  expect(lookedAt + waits.length).toBe(answers.length);
  for (const wait of waits) expect(wait).toBeGreaterThanOrEqual(1);
  return { lookedAt, waits };
}

it(`${ON_ONE} wrong ones in a row on one account: five are looked at, then it waits, and its owner is back in a quarter of an hour`, async () => {
  const begun = performance.now();
  const answers: Tried[] = [];
  for (let n = 0; n < ON_ONE; n += 1) answers.push(await tried('owner', `wrong wheels break nothing ${n}`));
  const { lookedAt, waits } = countOf(answers);
  const seconds = (performance.now() - begun) / 1000;
  expect(answers.slice(0, FREE).every(({ status }) => status === 401)).toBe(true);
  // After 2, 6, 14 and 30 s one more is looked at.
  expect(lookedAt).toBeLessThanOrEqual(FREE + Math.floor(Math.log2(seconds / 2 + 1)) + 1);
  const [row] = await queryAs<{ tries: number; wait: number }>(
    service.database.owner,
    `select tries, extract(epoch from next_at - now())::float as wait from wrong_try where id = 'owner'`,
  );
  expect(row?.tries).toBe(lookedAt);
  expect(row?.wait).toBeLessThanOrEqual(LONGEST);
  await queryAs(service.database.owner, `update wrong_try set next_at = now() where id = 'owner'`);
  expect((await tried('owner', RIGHT)).status).toBe(200);
  console.log(
    `${ON_ONE} wrong on one account in ${seconds.toFixed(1)} s: ${lookedAt} looked at, ${waits.length} told to wait, at most ${Math.max(...waits)} s`,
  );
}, 300_000);

it(`${ACCOUNTS * ON_EACH} over ${ACCOUNTS} accounts, eight at a time: each account counts for itself, and nobody gets in`, async () => {
  const begun = performance.now();
  const wanted = Array.from({ length: ON_EACH }, (_, n) =>
    Array.from({ length: ACCOUNTS }, (_, account) => ({
      person: `account-${account}`,
      wrong: `wrong wheels ${n} times`,
    })),
  ).flat();
  const answers: Tried[] = [];
  const guess = async () => {
    for (let next = wanted.shift(); next; next = wanted.shift()) answers.push(await tried(next.person, next.wrong));
  };
  await Promise.all(Array.from({ length: 8 }, guess));
  const { lookedAt, waits } = countOf(answers);
  const seconds = (performance.now() - begun) / 1000;
  expect(answers).toHaveLength(ACCOUNTS * ON_EACH);
  const [row] = await queryAs<{ most: number; sum: number; accounts: number }>(
    service.database.owner,
    `select max(tries) as most, sum(tries)::int as sum, count(*)::int as accounts from wrong_try where id like 'account-%'`,
  );
  expect(row?.accounts).toBe(ACCOUNTS);
  expect(row?.sum).toBe(lookedAt);
  expect(row?.most).toBeLessThanOrEqual(ON_EACH);
  console.log(
    `${answers.length} over ${ACCOUNTS} accounts in ${seconds.toFixed(0)} s: ${lookedAt} looked at, at most ${row?.most} on one, ${waits.length} told to wait`,
  );
}, 900_000);

/**
 * The long form holds the clock of the caller against a tenth. `npm test` shares its machine with others, whom the
 * clock would tell of: it holds the processor time of this process, service and caller, against a quarter. Argon2 is
 * more than half of that time, so a name that is looked at with less work shows in either.
 */
const [CLOCK, ALIKE]: [() => number, number] = LONG
  ? [() => performance.now(), 0.1]
  : [() => process.cpuUsage().user / 1000, 0.25];

it(`a name that is there and one that is not take the same time, ${TIMED} of each: medians within ${100 * ALIKE} %`, async () => {
  const timed = async (person: string) => {
    await queryAs(service.database.owner, 'delete from wrong_try');
    const begun = CLOCK();
    expect((await tried(person, 'wrong wheels break nothing')).status).toBe(401);
    return CLOCK() - begun;
  };
  const median = (times: number[]) => times.sort((a, b) => a - b)[Math.floor(times.length / 2)] ?? 0;
  const rounds: { known: number; unknown: number }[] = [];
  const isAlike = ({ known, unknown }: { known: number; unknown: number }) => Math.abs(known / unknown - 1) < ALIKE;
  // Others may share the machine, so a round is repeated; a real difference, 25 ms of argon2, shows in every one.
  while (rounds.length < 4 && !rounds.some(isAlike)) {
    const [known, unknown]: [number[], number[]] = [[], []];
    for (let n = 0; n < TIMED / 2; n += 1) {
      known.push(await timed('known'));
      unknown.push(await timed('nobody'), await timed('nobody'));
      known.push(await timed('known'));
    }
    rounds.push({ known: median(known), unknown: median(unknown) });
  }
  expect(rounds.some(isAlike), JSON.stringify(rounds)).toBe(true);
  const told = rounds.map(({ known, unknown }) => `${known.toFixed(1)} ms known, ${unknown.toFixed(1)} ms unknown`);
  console.log(`medians of ${TIMED} each: ${told.join('; ')}`);
}, 600_000);
