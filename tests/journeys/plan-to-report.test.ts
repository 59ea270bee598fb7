import { createHash, randomUUID } from 'node:crypto';
import { evaluateLot } from '@breakbook/acceptance';
import { canonicalJson } from '@breakbook/evidence';
import type { LotBundle, Run, RunJudgement } from '@breakbook/lab';
import { expect, it } from 'vitest';
import { formOf } from '../sent-runs.ts';
import { type SignedInCaller, startTestService } from '../service.ts';
import { enterLot, type People, signInPeople } from './entered-lot.fixture.ts';
import { type Folder, folder } from './lot-folder.fixture.ts';

// The outcomes are those of sample-runs/README.md.
it.each([
  ['burst', 'dunlin-42-second-lot', 'does not meet the plan'],
  ['brake heat', 'dunlin-42-heat', 'meets the plan'],
  ['impact', 'dunlin-42-impact', 'does not meet the plan'],
])(
  '%s: %s goes from plan to report over HTTP, through many hands, and is judged as the command line judges it',
  async (_, name, outcome) => {
    const { bundle, filesOf } = folder(name);
    const service = await startTestService();
    try {
      const people = await signInPeople(service, bundle);
      await enterLot(bundle, people);
      await recordRuns({ bundle, filesOf }, people);
      await refuseRecorders(bundle, people, (person) => service.signIn(person));
      await decideValidity(bundle, people.with('review'));

      const decider = people.with('decide');
      const evaluated = await done(decider, `/api/lots/${bundle.lot.lot}/evaluations`, {});
      const { body: evaluation } = await decider.ask('GET', `/api/evaluations/${evaluated.evaluation}`);
      const fromFolder = evaluateLot(bundle, filesOf);
      expect(fromFolder.refused).toEqual([]);
      expect(evaluation.outcome).toBe(outcome);
      expect(canonicalJson(evaluation.result)).toBe(canonicalJson(fromFolder.result));
      expect(byRun(evaluation.judgements)).toBe(byRun(fromFolder.runs.map(({ judgement }) => judgement)));

      await expectReport(people.with('issue'), evaluated.evaluation);
      await expectHands(bundle, people);
    } finally {
      await service.close();
    }
  },
  300_000,
);

/** Each run, with its files, by the person who made it. */
async function recordRuns({ bundle, filesOf }: Folder, people: People): Promise<void> {
  const { plan, revision } = bundle.plan;
  for (const { files, validity: _, ...run } of bundle.runs) {
    const body = formOf(
      { ...run, plan: { plan, revision } },
      Object.fromEntries(filesOf(run.run).map(({ name, bytes }) => [name, bytes])),
    );
    const headers = { 'idempotency-key': randomUUID() };
    const answer = await people.called(run.operator).ask('POST', '/api/runs', { body, headers });
    expect(answer.status, `run ${run.run}: ${JSON.stringify(answer.body)}`).toBe(201);
    expect(answer.body).toMatchObject({ run: run.run, specimen: run.specimen, lot: bundle.lot.lot });
    expect(answer.body.files.map(({ name, sha256 }: Run['files'][number]) => ({ name, sha256 }))).toEqual(files);
  }
}

/** Whoever recorded a run decides nothing about it: for want of the duty, and with the duty all the same. */
async function refuseRecorders(
  bundle: LotBundle,
  people: People,
  signIn: (person: string) => Promise<SignedInCaller>,
): Promise<void> {
  const operators = [...new Set(bundle.runs.map(({ operator }) => operator))];
  const tryAll = async (operator: string, caller: SignedInCaller, code: string) => {
    for (const { run } of bundle.runs.filter((one) => one.operator === operator))
      expect(await decide(caller, run, { validity: 'valid' })).toMatchObject({ status: 403, body: { code } });
  };
  for (const operator of operators) {
    await tryAll(operator, people.called(operator), 'auth.forbidden');
    const duties = bundle.people.find(({ person }) => person === operator)?.duties ?? [];
    await giveDuties(people.with('administer'), operator, [...duties, 'review']);
    await tryAll(operator, await signIn(operator), 'duty.conflict');
    await giveDuties(people.with('administer'), operator, duties);
  }
}

async function giveDuties(administrator: SignedInCaller, person: string, duties: string[]): Promise<void> {
  const { headers } = await administrator.ask('GET', `/api/people/${person}`);
  await administrator.again();
  const answer = await administrator.ask('PUT', `/api/people/${person}/duties`, {
    headers: { 'if-match': headers.get('etag') ?? '' },
    body: { duties, reason: 'short of reviewers' },
  });
  expect(answer.status, JSON.stringify(answer.body)).toBe(200);
}

/** Decides on every run as the folder says it was decided. */
async function decideValidity(bundle: LotBundle, reviewer: SignedInCaller): Promise<void> {
  for (const { run, validity } of bundle.runs) {
    const { person: _person, at: _at, ...decision } = validity ?? {};
    const answer = await decide(reviewer, run, decision);
    expect(answer.status, `run ${run}: ${JSON.stringify(answer.body)}`).toBe(201);
    expect(answer.body).toMatchObject({ validity: validity?.validity, run: { validity: { person: reviewer.person } } });
  }
}

async function decide(caller: SignedInCaller, run: string, body: object) {
  const seen = await caller.ask('GET', `/api/runs/${run}`);
  expect(seen.body.validity).toBe('not decided');
  await caller.again();
  return caller.ask('POST', `/api/runs/${run}/validity`, {
    headers: { 'if-match': seen.headers.get('etag') ?? '' },
    body,
  });
}

/** Asks for work and follows its events to the end; what came of it. */
async function done(caller: SignedInCaller, address: string, body: object) {
  const asked = await caller.ask('POST', address, { body });
  expect(asked.status, `${address}: ${JSON.stringify(asked.body)}`).toBe(202);
  const events = await (await caller.fetch(`${asked.headers.get('location')}/events`)).text();
  const last = JSON.parse([...events.matchAll(/^data: (.+)$/gm)].at(-1)?.[1] ?? 'null');
  expect(last).toMatchObject({ id: asked.body.id, state: 'done' });
  return last;
}

/** The report of an evaluation is made, and handed out as it is kept. */
async function expectReport(issuer: SignedInCaller, evaluation: number): Promise<void> {
  await issuer.again();
  const print = { paper: 'Letter', language: 'de', units: { pressure: 'bar' } };
  const { document } = await done(issuer, `/api/evaluations/${evaluation}/documents`, {
    kind: 'lot test report',
    ...print,
  });
  const told = await issuer.ask('GET', `/api/documents/${document}`);
  expect(told.body.content.print).toEqual(print);
  expect(told.body).toMatchObject({ kind: 'lot test report', evaluation, by: issuer.person });
  const pdf = await issuer.ask('GET', `/api/documents/${document}.pdf`);
  expect(pdf.headers.get('content-type')).toBe('application/pdf');
  expect(Buffer.from(pdf.body).toString('latin1', 0, 5)).toBe('%PDF-');
  expect(createHash('sha256').update(pdf.body).digest('hex')).toBe(told.body.sha256);
}

/** The ledger holds, and tells who did what. */
async function expectHands(bundle: LotBundle, people: People): Promise<void> {
  const auditor = people.with('audit');
  expect((await auditor.ask('POST', '/api/ledger/verification')).body).toMatchObject({ holds: true });
  const { body } = await auditor.ask('GET', '/api/ledger?limit=200');
  expect(body.next).toBeNull();
  const hands = (action: string) =>
    body.items.filter((one: { action: string }) => one.action === action).map(({ by }: { by: string }) => by);
  expect(hands('run recorded')).toEqual(bundle.runs.map(({ operator }) => operator));
  expect(hands('validity decided')).toEqual(bundle.runs.map(({ validity }) => validity?.person));
  expect(hands('lot evaluated')).toEqual([people.with('decide').person]);
  expect(hands('report composed')).toEqual([people.with('issue').person]);
}

function byRun(judgements: RunJudgement[]): string {
  return canonicalJson([...judgements].sort((one, other) => (one.run < other.run ? -1 : 1)));
}
