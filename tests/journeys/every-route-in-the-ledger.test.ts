import { Duty } from '@breakbook/lab';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { queryAs } from '../database.ts';
import { keepKeyedLot, keyedLot, VALID } from '../keyed-lot.ts';
import { keepLot } from '../sent-runs.ts';
import { type SignedInCaller, startTestService, type TestService } from '../service.ts';
import { walkComparisons } from './walk/comparisons.ts';
import { walkDecisions, walkWork } from './walk/decisions.ts';
import { walkDefinitions, walkRigs } from './walk/definitions.ts';
import { walkKeeping, walkSafetyAndOld } from './walk/keeping.ts';
import { walkLots, walkRuns } from './walk/lots.ts';
import { walkOwn, walkPeople } from './walk/people.ts';
import type { Walk } from './walk/walk.ts';
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
  'POST /api/documents/check': 'nothing is kept',
  'POST /api/compute': 'nothing is kept',
  'POST /api/planning/designs': 'nothing is kept',
  'POST /api/planning/showable': 'nothing is kept',
  'POST /api/planning/risks': 'nothing is kept',
  'POST /api/planning/drafts': 'nothing is kept',
  'POST /api/lots/:lot/what-ifs': 'nothing is kept',
  'POST /api/ledger/verification': 'only looks',
  'POST /api/ledger/checkpoints': 'signs the ledger, and is no part of it',
  'POST /api/ledger/checkpoints/comparison': 'only looks',
};
/** They leave nothing either, and need what no walk has: a provider to sign in by, and work that takes long enough to be ended. */
const WALKED_ELSEWHERE = ['POST /api/sign-in/outside', 'POST /api/sign-in/outside/return', 'POST /api/jobs/:id/cancel'];

/**
 * Rows by which somebody signs, decides, or changes who may do what and by which keys; with the state a row came to,
 * where its table has one.
 */
const DECIDES = new Set([
  'lab_version',
  'credential_change',
  'outside_identity',
  'competence',
  'rig_token',
  'rig_token_revocation',
  'proposal_decision',
  'validity_decision',
  'run_review',
  'retest',
  'document',
  'document_sealing',
  'certificate',
  'certificate_version in force',
  'certificate_version on hold',
  'certificate_version withdrawn',
  'certificate_version',
  'signing_key',
  'signing_key_ending',
  'nonconformity_version closed',
  'concession_version granted',
  'concession_version refused',
  'disposition',
  'disposition_signature',
  'lot_keeping',
  'specimen_keeping',
  'legal_hold_lifting',
  'disposal_version authorised',
  'disposal_version refused',
  'safety_flag_version closed',
  'opinion_version given',
  'opinion_version',
  'opinion_version withdrawn',
  'person_version',
  'comparison_decision',
  'comparison_withdrawal',
  'old_table_withdrawal',
  'comparison_conclusion',
]);
/** Rows of work, asked for or done, which decide nothing by themselves; of most of them somebody else decides later. */
const WORK = new Set([
  'attachment',
  'attachment_version',
  'calibration',
  'calibration_version',
  'code_list',
  'comparison',
  'comparison_consent',
  'comparison_document',
  'comparison_item',
  'comparison_revision',
  'comparison_result',
  'comparison_set_aside',
  'concession',
  'concession_version requested',
  'concession_version withdrawn',
  'custody_event',
  'destruction',
  'disposal',
  'disposal_specimen',
  'disposal_version asked for',
  'disposal_version carried out',
  'disposal_version withdrawn',
  'batch_document',
  'document_batch',
  'document_content',
  'document_subject',
  'certificate_sending in force',
  'evaluation',
  'evaluation_input',
  'examination',
  'layout',
  'layout_revision',
  'legal_hold',
  'legal_hold_specimen',
  'limit',
  'limit_revision',
  'lot',
  'lot_closing',
  'lot_package',
  'lot_version',
  'measurement',
  'method',
  'method_revision',
  'nonconformity',
  'nonconformity_lot',
  'nonconformity_version open',
  'nonconformity_version',
  'observation',
  'observation_version',
  'old_result',
  'old_table',
  'opinion',
  'passage',
  'person',
  'plan',
  'plan_line',
  'plan_line_limit',
  'plan_revision',
  'product',
  'product_version',
  'proposal',
  'protected_note',
  'raw_bytes',
  'reading',
  'recomputation',
  'reference',
  'reference_revision',
  'reference_unit',
  'rig',
  'rig_version',
  'run',
  'run_channel',
  'run_file',
  'run_version',
  'safety_flag',
  'safety_flag_lot',
  'safety_flag_package',
  'safety_flag_version open',
  'safety_flag_version',
  'sampling_record',
  'sensor',
  'sensor_placement',
  'sensor_version',
  'specimen',
  'specimen_state conditioned',
  'specimen_state disposed',
  'specimen_use',
  'specimen_version',
  'unread_closing',
  'verdict_set',
]);
/** They write nothing yet, but hand out what becomes a key. */
const OFFERS_A_KEY = ['POST /api/me/code-generator', 'POST /api/me/passkeys/offer'];

/** A refused file is laid aside for good, or read again: the row is of one kind, and only the first is a decision. */
const LAYS_ASIDE = ['POST /api/unread/:id/discard'];

/** Whoever changes their passphrase gives the one that stands in the same request. */
const TAKES_THE_PASSPHRASE = 'POST /api/me/passphrase';

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
  await walkComparisons(walk);
  await walkWork(walk, LOT);
  // A new route is walked in tests/journeys/walk, or said to leave nothing and why.
  expect(walk.routes.missing.sort()).toEqual(WALKED_ELSEWHERE.sort());
}, 180_000);

it('routes that wrote a decision, a signature, a duty or a key ask for the passphrase again, and no other does', async () => {
  const kinds = [...walk.routes.written].flatMap(([route, written]) => [...written].map((kind) => ({ route, kind })));
  // A new table is put to the one side or the other.
  expect(kinds.filter(({ kind }) => DECIDES.has(kind) === WORK.has(kind))).toEqual([]);
  const deciding = new Set(kinds.flatMap(({ route, kind }) => (DECIDES.has(kind) ? [route] : [])));
  expect(deciding.size).toBeGreaterThan(30);

  const every = Duty.exclude(['send', 'administer']).options;
  const callers = [await service.signIn('every-work', every), await service.signIn('every-office', ['administer'])];
  await queryAs(service.database.owner, `update session set confirmed_at = confirmed_at - interval '5 minutes'`);
  const asking: string[] = [];
  for (const route of walk.routes.written.keys()) {
    // It would end the session that asks.
    if (/sign-out|sessions/.test(route)) continue;
    const [method = '', url = ''] = route.split(' ');
    const path = url.replaceAll(/:[a-zA-Z]+/g, 'none');
    const codes = await Promise.all(callers.map(async (by) => (await by.ask(method, path, { body: {} })).body?.code));
    if (codes.includes('auth.again')) asking.push(route);
  }
  expect(asking.sort()).toEqual(
    [...[...deciding].filter((route) => route !== TAKES_THE_PASSPHRASE), ...LAYS_ASIDE, ...OFFERS_A_KEY].sort(),
  );
  const changing = { current: 'not the one that stands', passphrase: 'rims that nobody breaks twice' };
  const [anybody] = callers;
  expect(await anybody?.ask('POST', '/api/me/passphrase', { body: changing })).toMatchObject({
    status: 401,
    body: { code: 'auth.failed' },
  });
});
