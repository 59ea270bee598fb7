import {
  destroysSpecimen,
  mayMove,
  photosAskedOf,
  photosMissing,
  type Reading,
  Refusal,
  RUN_STATES,
  type Run,
  type RunJudgement,
  shown,
  type ValidityDecision,
} from '@breakbook/lab';
import { destroySpecimen, newId, type RawStore, Records, type Rows, tables } from '@breakbook/records';
import { Inject, Injectable } from '@nestjs/common';
import { acceptance } from '../arithmetic.js';
import { openForRun } from '../nonconformities/open-for-run.js';
import { RAW_STORE } from '../records/raw-store.token.js';
import { requireOther } from '../sign-in/forbidden-pairs.js';
import type { SignedInActor } from '../sign-in/signed-in.decorator.js';
import { inSpool } from '../uploads/spool.js';
import { spoolRaw } from '../uploads/spool-raw.js';
import { Workers } from '../workers/workers.js';
import type { LaterExamination, LaterInstant, LaterMeasurements, NewDecision } from './later-entries.js';
import { runToRead } from './record-run.js';
import { refuseReplaced } from './refuse-replaced.js';
import { doneToRun } from './run-acts.js';
import { type RunAnswer, runAnswer } from './run-answer.js';
import { type RunContext, runContext } from './run-context.js';
import { problemsOfRun } from './run-problems.js';
import { limitsOfRun, type RunRecord, runRecord, stateOf } from './run-record.js';
import { writeChannels, writeReading } from './write-run.js';

/** What is said of a run after it was recorded: each a further version, with its reason, by whoever says it. */
@Injectable()
export class RunEntriesService {
  constructor(
    private readonly records: Records,
    @Inject(RAW_STORE) private readonly store: RawStore,
    private readonly workers: Workers,
  ) {}

  /** Adds keyed measurements, or corrects them; the run is read again with them. */
  async measure(by: SignedInActor, runKey: string, seen: number, body: LaterMeasurements): Promise<RunAnswer> {
    const record = await this.#undecided(by, runKey, seen);
    const known = new Set(record.measurements.map(({ recordId }) => recordId));
    const corrected = new Map(body.measurements.flatMap((one) => (one.record ? [[one.record, one.measurement]] : [])));
    for (const [index, { record: id }] of body.measurements.entries())
      if (id !== undefined && !known.has(id))
        throw new Refusal({
          code: 'body.not-found',
          pointer: `/measurements/${index}/record`,
          detail: `Run ${runKey} has no measurement ${id}. Look at the run, or leave "record" out for a new one.`,
        });
    if (corrected.size > 0) requireReason(body.reason, 'a measurement');
    const measurements = [
      ...record.measurements.map((one) => corrected.get(one.recordId) ?? one.content),
      ...body.measurements.flatMap((one) => (one.record === undefined ? [one.measurement] : [])),
    ];
    return this.#say(by, record, { ...record.run, measurements }, 'measurements keyed', body.reason, async (rows) => {
      for (const one of body.measurements)
        await rows.addVersion(tables.Measurement, one.record ?? newId(), {
          runId: record.noun.id,
          content: one.measurement,
        });
      return record.body;
    });
  }

  /** Notes what was seen on the specimen, or corrects it. A specimen found broken is destroyed from now on. */
  async examine(by: SignedInActor, runKey: string, seen: number, body: LaterExamination): Promise<RunAnswer> {
    const record = await this.#undecided(by, runKey, seen);
    const { examination } = body;
    if (record.examination) requireReason(body.reason, 'the examination');
    return this.#say(by, record, { ...record.run, examination }, 'specimen examined', body.reason, async (rows) => {
      await rows.addVersion(tables.Examination, record.noun.id, { content: examination });
      const noted = await rows.maybe(tables.Destruction, { runId: record.noun.id });
      if (destroysSpecimen(examination) && !noted) await destroySpecimen(rows, record.noun.specimenId, record.noun.id);
      return record.body;
    });
  }

  /** Puts a moment of the record elsewhere than it is proposed, confirms it, or leaves it as proposed after all. */
  async moveInstant(by: SignedInActor, runKey: string, seen: number, body: LaterInstant): Promise<RunAnswer> {
    const record = await this.#undecided(by, runKey, seen);
    const { instants: before = [], ...run } = record.run;
    const others = before.filter(({ instant, passage }) => instant !== body.instant || passage !== body.passage);
    if (body.at === 'as proposed' && others.length === before.length)
      throw new Refusal({
        code: 'state.conflict',
        pointer: '/at',
        detail: `Nobody has moved "${body.instant}" of run ${runKey}; it stands as proposed.`,
        action: 'Give the moment in seconds to confirm it or to put it elsewhere.',
      });
    const { at, ...said } = body;
    const movedAt = new Date().toISOString();
    const instants = at === 'as proposed' ? others : [...others, { ...said, at, person: by.person, movedAt }];
    const now: Run = instants.length > 0 ? { ...run, instants } : run;
    try {
      return await this.#say(by, record, now, 'moment of the record moved', body.reason, async (rows, read) => {
        const { files: _f, measurements: _m, examination: _e, photos: _p, validity: _v, ...content } = now;
        const { planLineId, methodRevisionId, rigId, layoutRevisionId, operatorId, startedAt } = record.body;
        const version = await rows.addVersion(tables.RunVersion, record.noun.id, {
          planLineId,
          methodRevisionId,
          rigId,
          layoutRevisionId,
          operatorId,
          startedAt,
          content,
        });
        await writeChannels(rows, version.id, read.context, read.reading);
        return version;
      });
    } catch (error) {
      throw error instanceof Refusal ? saidOfBody(error, `/instants/${instants.length - 1}`) : error;
    }
  }

  /** Decides whether the run is valid, which none does who recorded anything of it. */
  async decide(by: SignedInActor, runKey: string, seen: number, decision: NewDecision): Promise<RunAnswer> {
    const reader = this.records.read(by.labId);
    const record = await runRecord(reader, runKey);
    requireVersion(record, seen);
    requireOther(by, 'review', `run ${runKey}`, await doneToRun(reader, record));
    const state = stateOf(record);
    if (mayMove(RUN_STATES, 'decide anew', state) && decision.note === undefined)
      throw new Refusal({
        code: 'body.missing-field',
        pointer: '/note',
        detail: `/note: run ${runKey} is ${state} already; a note says why it is decided again.`,
      });
    await this.records.change(by, 'validity decided', decision.note, async (rows) => {
      requirePhotos(await this.#held(rows, record), decision);
      const content = { ...decision, person: by.person, at: rows.at.toISOString() };
      await refuseReplaced(rows, record, decision.validity);
      await this.#requireFits(rows, record, { ...record.run, validity: content });
      await rows.addVersion(tables.ValidityDecision, record.noun.id, { validity: decision.validity, content });
      await openForRun(rows, {
        runId: record.noun.id,
        lot: record.lot,
        judgement: await judgedAs(rows, record, content),
        decision: content,
      });
    });
    return runAnswer(reader, await runRecord(reader, runKey));
  }

  /** What was recorded does not change under a decision that rests on it. */
  async #undecided(by: SignedInActor, runKey: string, seen: number): Promise<RunRecord> {
    const record = await runRecord(this.records.read(by.labId), runKey);
    requireVersion(record, seen);
    const state = stateOf(record);
    if (mayMove(RUN_STATES, 'correct', state)) return record;
    throw new Refusal({
      code: 'state.conflict',
      detail: `Run ${runKey} was decided to be ${state}; what was recorded of it stands.`,
      action:
        'If it is wrong, have a reviewer decide anew that the run is invalid (record incomplete), or void where it was recorded by mistake.',
    });
  }

  async #say(
    by: SignedInActor,
    record: RunRecord,
    now: Run,
    action: string,
    reason: string | undefined,
    /** Keeps what is said; answers the version of the run that it is now read by. */
    say: (rows: Rows, read: { context: RunContext; reading: Reading }) => Promise<tables.RunVersion>,
  ): Promise<RunAnswer> {
    const reader = this.records.read(by.labId);
    await this.#requireFits(reader, record, now);
    const read = await this.#readAgain(by, record, now);
    await this.records.change(by, action, reason, async (rows) => {
      await this.#held(rows, record);
      await writeReading(rows, record.noun.id, await say(rows, read), read.reading);
    });
    return runAnswer(reader, await runRecord(reader, record.run.run));
  }

  /** Keeps others from saying something of the run until the change ends, and sees that none has since it was read. */
  async #held(rows: Rows, record: RunRecord): Promise<RunRecord> {
    await rows.lock(tables.Run, record.noun.id);
    const held = await runRecord(rows, record.run.run);
    requireVersion(held, record.version);
    return held;
  }

  async #requireFits(reader: Rows | ReturnType<Records['read']>, { plan }: RunRecord, now: Run): Promise<void> {
    const problems = await problemsOfRun(reader, await runContext(reader, { ...now, plan }), now);
    if (problems.length > 0) throw new Refusal(problems);
  }

  async #readAgain(
    by: SignedInActor,
    { plan, files }: RunRecord,
    now: Run,
  ): Promise<{ context: RunContext; reading: Reading }> {
    const reader = this.records.read(by.labId);
    const context = await runContext(reader, { ...now, plan });
    const reading = await inSpool(async (folder) => {
      const spooled = await spoolRaw({ store: this.store, reader, folder }, files);
      return this.workers.run('read run', runToRead(context, now, spooled));
    });
    return { context, reading };
  }
}

/** What the run comes to now that its validity is decided. */
async function judgedAs(reader: Rows, record: RunRecord, validity: ValidityDecision): Promise<RunJudgement> {
  const { judgeRun } = await acceptance();
  const { plan, method, reading, run } = record;
  const limits = await limitsOfRun(reader, record);
  return judgeRun({ plan, method, limits, reading: reading.content, run: { ...run, validity } });
}

/** What was found wrong in the run as it would be, told of the body that said it. */
function saidOfBody(refusal: Refusal, at: string): Refusal {
  const problems = refusal.problems.map((one) =>
    one.pointer?.startsWith(`${at}/`) ? { ...one, pointer: one.pointer.slice(at.length) } : one,
  );
  return new Refusal(problems, refusal.problemCount);
}

function requireVersion({ version, run }: RunRecord, seen: number): void {
  if (version === seen) return;
  throw new Refusal({
    code: 'version.stale',
    detail: `Version ${seen} of run ${run.run} was seen here, but version ${version} is in force by now.`,
    action: 'Look at the run as it is and make the change again, if it is still needed.',
  });
}

/** Photos that the mode found asks for are there, or it is said why not. What was recorded by mistake needs none. */
function requirePhotos({ run, method }: RunRecord, { validity }: NewDecision): void {
  const missing = photosMissing(photosAskedOf(method.failureModes, run));
  if (missing.length === 0 || run.examination?.withoutPhotos !== undefined || validity === 'void') return;
  const each = missing.map(({ of, least, present }) => `${of}: ${present} of ${least}`).join('; ');
  throw new Refusal({
    code: 'state.conflict',
    detail: `Run ${run.run} lacks photos that its failure mode asks for (${each}).`,
    found: shown(each),
    action:
      'Attach them to the run, each with what it shows, or say in the examination why they were not taken. Then decide.',
  });
}

function requireReason(reason: string | undefined, what: string): void {
  if (reason !== undefined) return;
  throw new Refusal({
    code: 'body.missing-field',
    pointer: '/reason',
    detail: `/reason: ${what} is said otherwise already; a reason says why it is corrected.`,
  });
}
