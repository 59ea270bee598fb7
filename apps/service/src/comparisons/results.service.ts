import { canonicalJson, sha256 } from '@breakbook/evidence';
import { COMPARISON_STATES, type ComparisonCase, Refusal, requireAllowed, requireMove, SOFTWARE } from '@breakbook/lab';
import {
  prepareRaw,
  type RawStore,
  Reader,
  Records,
  type Rows,
  rawFromBytes,
  readWhole,
  tables,
} from '@breakbook/records';
import { Inject, Injectable, type OnModuleInit } from '@nestjs/common';
import { In } from 'typeorm';
import { acceptance } from '../arithmetic.js';
import { doneToRuns } from '../dispositions/done-to-lot.js';
import type { Job, JobAnswer } from '../jobs/job.js';
import { JobRunner } from '../jobs/job-runner.js';
import { JobsService } from '../jobs/jobs.service.js';
import { RAW_STORE } from '../records/raw-store.token.js';
import { type Done, requireOther } from '../sign-in/forbidden-pairs.js';
import type { SignedInActor } from '../sign-in/signed-in.decorator.js';
import { type TaskOptions, Workers } from '../workers/workers.js';
import { blindedFrom, hiddenFrom } from './blinds.js';
import { refuseClaims } from './claims.js';
import type { ComparisonAnswer } from './comparison-answers.js';
import { comparisonFigures } from './comparison-figures.js';
import { type ComparisonStanding, comparisonAnswer, heldComparison, standingOf } from './comparison-standing.js';
import type { ComparisonResultAnswer, NewConclusion } from './result-answers.js';
import { changedSince, type StoredCase, storedCase } from './stored-case.js';

/** What comparisons come to: worked out as a job, and locked by a signature of somebody who did neither side of the work. */
@Injectable()
export class ComparisonResultsService implements OnModuleInit {
  constructor(
    private readonly records: Records,
    @Inject(RAW_STORE) private readonly store: RawStore,
    private readonly workers: Workers,
    private readonly jobs: JobsService,
    private readonly runner: JobRunner,
  ) {}

  onModuleInit(): void {
    this.runner.handle('comparison', (job, options) => this.#compare(job, options));
  }

  async ask(by: SignedInActor, key: string): Promise<JobAnswer> {
    const reader = this.records.read(by.labId);
    requireApproved(await standingOf(reader, await reader.named(tables.Comparison, key)));
    return this.jobs.ask(by, 'comparison', { comparison: key });
  }

  /** The last result, or that of a number; whoever is blinded reads none before conclusions are locked. */
  async one(by: SignedInActor, key: string, number?: number): Promise<ComparisonResultAnswer> {
    const reader = this.records.read(by.labId);
    const standing = await standingOf(reader, await reader.named(tables.Comparison, key));
    const result = await resultOf(reader, standing, number);
    const stored = await storedCase(reader, standing);
    const hidden = await hiddenFrom(reader, by);
    const item = stored.specimens.find((one) => hidden.has(one.key));
    if (item) throw blindedFrom(`What comparison ${key} came to`, item.key);
    const whole = await readWhole(this.store, reader, result.recordsId);
    const given = JSON.parse(new TextDecoder().decode(whole)) as ComparisonCase;
    const { limitsBeside } = await acceptance();
    const limits = stored.runs.flatMap(({ judge }) => judge.limits);
    const figures = await comparisonFigures(given, result.content, limitsBeside(stored.given.comparison, limits));
    return { ...(await resultAnswer(reader, standing, result, stored)), figures };
  }

  conclude(by: SignedInActor, key: string, asked: NewConclusion): Promise<ComparisonAnswer> {
    const { result: number, shown, note, replaces, reason } = asked;
    return this.records.change(by, 'conclusions locked', reason, async (rows) => {
      const standing = await heldComparison(rows, key);
      const { noun, state, conclusions, inForce } = standing;
      const thing = `comparison ${key}`;
      requireMove(COMPARISON_STATES, state === 'concluded' ? 'conclude anew' : 'conclude', state, thing);
      await refuseClaims({ '/note': note, '/reason': reason });
      // Nothing else of the lab changes between what is looked at here and the end of the change.
      await rows.lockLedger();
      const stored = await storedCase(rows, standing);
      requireOther(by, 'lock conclusions', thing, await doneBefore(rows, standing, stored));
      const result = await resultOf(rows, standing);
      if (result.number !== number || result.revisionId !== inForce?.id)
        throw stale('/result', `${number}`, `The last result of ${thing} is ${result.number}.`);
      const changed = changedSince(result.restsOn, stored.restsOn);
      if (changed.length > 0)
        throw stale('/result', `${number}`, `Since result ${number} there changed: ${changed.join(', ')}.`);
      if (digestOfResult(result) !== shown)
        throw stale('/shown', shown, `What was shown has another digest than result ${number} as it is kept.`);
      const before = conclusions.at(-1);
      requireReplaces(thing, before, replaces);
      const { name, role } = (await rows.latest(tables.PersonVersion, by.personId)).content;
      await rows.add(tables.ComparisonConclusion, {
        comparisonId: noun.id,
        position: conclusions.length + 1,
        resultId: result.id,
        name,
        role,
        meaning: `I answer for the conclusions of comparison ${key} rev. ${inForce.content.revision}, as result ${number} has them.`,
        shown,
        note: note ?? null,
        replacesId: before?.id ?? null,
        reason: reason ?? null,
      });
      return comparisonAnswer(rows, by, await standingOf(rows, noun));
    });
  }

  async #compare(job: Job<'comparison'>, options: Required<TaskOptions>): Promise<void> {
    const reader = this.records.read(job.labId);
    // One snapshot for all of it, so that what is said meanwhile enters whole or not at all.
    const { standing, stored } = await reader.manager.transaction('REPEATABLE READ', async (manager) => {
      const snapshot = new Reader(manager, job.labId);
      const now = await standingOf(snapshot, await snapshot.named(tables.Comparison, job.subject.comparison));
      requireApproved(now);
      return { standing: now, stored: await storedCase(snapshot, now) };
    });
    const { given, runs, restsOn } = stored;
    const compared = await this.workers.run('compare', { given, runs }, options);
    const raw = await prepareRaw(rawFromBytes(new TextEncoder().encode(canonicalJson(compared.given))));
    await this.records.change(job, 'comparison worked out', async (rows) => {
      const { id: recordsId } = await this.store.keep(rows, raw);
      const { id: comparisonResultId } = await rows.add(tables.ComparisonResult, {
        comparisonId: standing.noun.id,
        revisionId: standing.inForce?.id ?? '',
        recordsId,
        software: SOFTWARE,
        restsOn,
        content: compared.result,
      });
      await this.jobs.endWithin(rows, job, { outcome: 'done', comparisonResultId });
    });
  }
}

function requireApproved({ noun, state }: ComparisonStanding): void {
  requireAllowed(COMPARISON_STATES, 'work out its result', state, {
    thing: `comparison ${noun.key}`,
    action: 'Have what is declared approved by another person first.',
  });
}

/** The result of this number of a comparison, or its last. */
export async function resultOf(
  reader: Reader,
  { noun }: ComparisonStanding,
  number?: number,
): Promise<tables.ComparisonResult> {
  const all = await reader.find(tables.ComparisonResult, { comparisonId: noun.id }, { number: 'asc' });
  const found = number === undefined ? all.at(-1) : all.find((one) => one.number === number);
  if (found) return found;
  throw new Refusal({
    code: 'request.not-found',
    detail:
      number === undefined
        ? `Comparison ${noun.key} has no result yet.`
        : `Comparison ${noun.key} has no result ${number}.`,
    action: 'Have it worked out.',
  });
}

function digestOfResult({ content }: tables.ComparisonResult): string {
  return sha256(canonicalJson(content));
}

async function resultAnswer(
  reader: Reader,
  { noun, revisions }: ComparisonStanding,
  result: tables.ComparisonResult,
  stored: StoredCase,
): Promise<Omit<ComparisonResultAnswer, 'figures'>> {
  const { number, at, personId, software, restsOn, content, recordsId, revisionId } = result;
  const revision = revisions.find(({ version }) => version.id === revisionId)?.version;
  if (!revision) throw new Error(`Result ${number} is of no revision of comparison ${noun.key}.`);
  return {
    number,
    comparison: noun.key,
    revision: revision.content.revision,
    at: at.toISOString(),
    by: (await reader.one(tables.Person, personId)).key,
    software,
    recordsSha256: (await reader.one(tables.RawBytes, recordsId)).sha256,
    restsOn,
    changedSince: changedSince(restsOn, stored.restsOn),
    declaredAfterResults: revision.runsBefore + revision.observationsBefore > 0,
    content,
    sha256: digestOfResult(result),
  };
}

/** Whatever keeps somebody from locking: who declared it, and who recorded a run or looked at a specimen of it. */
async function doneBefore(
  rows: Rows,
  { noun, revisions }: ComparisonStanding,
  { specimens }: StoredCase,
): Promise<Done[]> {
  const thing = `comparison ${noun.key}`;
  const runs = await rows.find(tables.Run, { specimenId: In(specimens.map(({ id }) => id)) });
  const looked = await rows.find(tables.Observation, { comparisonId: noun.id });
  const said = await rows.find(tables.ObservationVersion, { recordId: In(looked.map(({ id }) => id)) });
  const numbers = new Map(looked.map(({ id, number }) => [id, number]));
  return [
    ...revisions.map(({ version: { personId } }): Done => ({ act: 'declare a comparison', personId, thing })),
    ...said.map(
      ({ personId, recordId }): Done => ({ act: 'record', personId, thing: `observation ${numbers.get(recordId)}` }),
    ),
    ...(await doneToRuns(rows, new Map(runs.map(({ id, key }) => [id, key])))),
  ];
}

function requireReplaces(thing: string, before: tables.ComparisonConclusion | undefined, replaces?: number): void {
  if (before?.position === replaces) return;
  throw new Refusal({
    code: before ? 'state.conflict' : 'body.not-found',
    pointer: '/replaces',
    detail: before
      ? `Conclusion ${before.position} of ${thing} is locked and never changes.`
      : `/replaces: nothing was concluded of ${thing} yet. Leave it out.`,
    ...(before
      ? { action: 'Name it in "replaces", with the reason, and the new one takes its place; both stay.' }
      : {}),
  });
}

function stale(pointer: string, found: string, detail: string): Refusal {
  return new Refusal({
    code: 'version.stale',
    pointer,
    found,
    detail,
    action: 'Have it worked out again where something changed, read that, and sign it, if you still would.',
  });
}
