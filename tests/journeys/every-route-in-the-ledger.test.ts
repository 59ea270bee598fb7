import { type Duty } from '@breakbook/lab';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { keepKeyedLot, keyedLot, VALID } from '../keyed-lot.ts';
import { keepLot } from '../sent-runs.ts';
import { type SignedInCaller, startTestService, type TestService } from '../service.ts';
import { walkDecisions, walkWork } from './walk/decisions.ts';
import { walkDefinitions, walkRigs } from './walk/definitions.ts';
import { walkKeeping, walkSafetyAndOld } from './walk/keeping.ts';
import { walkLots, walkRuns } from './walk/lots.ts';
import { walkOwn, walkPeople } from './walk/people.ts';
import { type Walk } from './walk/walk.ts';
import { WalkedRoutes } from './walk/walked-routes.ts';

/** Why a route leaves nothing in the ledger: it changes no evidence. */
const LEAVES_NOTHING: Record<string, string> = {
  'POST /api/sign-in': 'a session',
  'POST /api/sign-out': 'a session',
  'POST /api/me/again': 'a session',
  'POST /api/me/second-factor': 'a session',
  'POST /api/me/second-factor/passkey/question': 'a session',
  'POST /api/me/second-factor/passkey': 'a session',
  'POST /api/me/sessions/ending': 'sessions',
  'POST /api/me/sessions/:session/ending': 'a session',
  'POST /api/me/code-generator': 'only offered until a first code is given',
  'POST /api/me/passkeys/offer': 'only offered',
  'POST /api/layouts/proposals': 'nothing is kept',
  'POST /api/layouts/trials': 'nothing is kept',
  'POST /api/old-results/trials': 'nothing is kept',
  'POST /api/compute': 'nothing is kept',
  'POST /api/lots/:lot/what-ifs': 'nothing is kept',
  'POST /api/ledger/verification': 'only looks',
  'POST /api/ledger/checkpoints': 'signs the ledger, and is no part of it',
  'POST /api/ledger/checkpoints/comparison': 'only looks',
};
/** They leave nothing either, and need what no walk has: a provider to sign in by, and work that takes long enough to be ended. */
const WALKED_ELSEWHERE = ['POST /api/sign-in/outside', 'POST /api/sign-in/outside/return', 'POST /api/jobs/:id/cancel'];

const LOT = 'WALKED';
let service: TestService;
let walk: Walk;

beforeAll(async () => {
  service = await startTestService();
  const bundle = await keepLot(service.records, 6);
  const runs = [1900, 1600].map((kPa) => ({ kPa, validity: VALID }));
  await keepKeyedLot(service, keyedLot(runs, { lot: LOT, spare: 3 }));
  const people = new Map<string, SignedInCaller>();
  const others: { person: string; duties: Duty[] }[] = [
    { person: 'second-decider', duties: ['decide'] },
    { person: 'trainer', duties: ['review'] },
    { person: 'loser', duties: ['review'] },
  ];
  for (const { person, duties } of [...bundle.people, ...others])
    people.set(person, await service.signIn(person, duties));
  const as = (person: string) => people.get(person) as SignedInCaller;
  walk = { service, routes: new WalkedRoutes(service, LEAVES_NOTHING), bundle, as };
}, 120_000);
afterAll(() => service.close());

it('every state-changing route leaves one entry, by whom, when, why, as it was and as it is; or changes no evidence', async () => {
  await walkPeople(walk);
  await walkOwn(walk);
  await walkRigs(walk);
  await walkDefinitions(walk);
  await walkLots(walk);
  await walkRuns(walk);
  await walkDecisions(walk, LOT);
  await walkKeeping(
    walk,
    LOT,
    [3, 4, 5].map((n) => `${LOT}-${n}`),
  );
  await walkSafetyAndOld(walk, LOT);
  await walkWork(walk, LOT);
  // A new route is walked in tests/journeys/walk, or said to leave nothing and why.
  expect(walk.routes.missing.sort()).toEqual(WALKED_ELSEWHERE.sort());
}, 180_000);
