import { Instant, Key, LotOutcome, LotResult, PlanRef, RunJudgement } from '@breakbook/lab';
import { type RawStore, Reader, Records, tables } from '@breakbook/records';
import { Inject, Injectable, type OnModuleInit } from '@nestjs/common';
import { In } from 'typeorm';
import { z } from 'zod';
import type { Job, JobAnswer } from '../jobs/job.js';
import { JobRunner } from '../jobs/job-runner.js';
import { JobsService } from '../jobs/jobs.service.js';
import { storedLot } from '../lots/lot-bundle.js';
import { RAW_STORE } from '../records/raw-store.token.js';
import type { SignedInActor } from '../sign-in/signed-in.decorator.js';
import { inSpool } from '../uploads/spool.js';
import { spoolRaw } from '../uploads/spool-raw.js';
import { type TaskOptions, Workers } from '../workers/workers.js';
import { evaluationNumbered } from './evaluation-numbered.js';
import { keepEvaluation, recordsOfLot } from './keep-evaluation.js';

/** An evaluation in a list. */
export const EvaluationInList = z.strictObject({
  number: z.number().int(),
  lot: Key,
  plan: PlanRef,
  outcome: LotOutcome,
  sentence: z.string(),
  at: Instant,
  by: Key,
  software: z.string(),
  /** Documents made of it, by their short numbers. */
  documents: z.array(z.number().int()),
});
export type EvaluationInList = z.infer<typeof EvaluationInList>;

/** An evaluation whole: what was said of the lot, and of each run that entered. */
export const EvaluationAnswer = EvaluationInList.extend({
  result: LotResult,
  judgements: z.array(RunJudgement),
  /** Of the records it was made from, in canonical JSON. */
  recordsSha256: z.string().nullable(),
});
export type EvaluationAnswer = z.infer<typeof EvaluationAnswer>;

/** Evaluations: a lot judged under its plan, asked for and done as a job. */
@Injectable()
export class EvaluationsService implements OnModuleInit {
  constructor(
    private readonly records: Records,
    @Inject(RAW_STORE) private readonly store: RawStore,
    private readonly workers: Workers,
    private readonly jobs: JobsService,
    private readonly runner: JobRunner,
  ) {}

  onModuleInit(): void {
    this.runner.handle('lot evaluation', (job, options) => this.#evaluate(job, options));
  }

  async ask(by: SignedInActor, lotKey: string): Promise<JobAnswer> {
    const lot = await this.records.read(by.labId).named(tables.Lot, lotKey);
    return this.jobs.ask(by, 'lot evaluation', { lot: lot.key });
  }

  async ofLot(labId: string, lotKey: string): Promise<EvaluationInList[]> {
    const reader = this.records.read(labId);
    const lot = await reader.named(tables.Lot, lotKey);
    const evaluations = await reader.find(tables.Evaluation, { lotId: lot.id }, { number: 'desc' });
    return Promise.all(evaluations.map((one) => inList(reader, one)));
  }

  async one(labId: string, number: number): Promise<EvaluationAnswer> {
    const reader = this.records.read(labId);
    const evaluation = await evaluationNumbered(reader, number);
    const inputs = await reader.find(tables.EvaluationInput, { evaluationId: evaluation.id });
    const sets = await reader.find(tables.VerdictSet, { id: In(inputs.map(({ verdictSetId }) => verdictSetId)) });
    const kept = evaluation.recordsId ? await reader.one(tables.RawBytes, evaluation.recordsId) : undefined;
    return {
      ...(await inList(reader, evaluation)),
      result: evaluation.content,
      judgements: sets.map(({ content }) => content),
      recordsSha256: kept?.sha256 ?? null,
    };
  }

  async #evaluate(job: Job<'lot evaluation'>, options: Required<TaskOptions>): Promise<void> {
    const reader = this.records.read(job.labId);
    // One snapshot for all of it, so that what is said meanwhile enters whole or not at all.
    const lot = await reader.manager.transaction('REPEATABLE READ', (manager) =>
      storedLot(new Reader(manager, job.labId), job.subject.lot),
    );
    const recordsRaw = await recordsOfLot(lot);
    const evaluation = await inSpool(async (folder) => {
      const files: { run: string; files: { name: string; path: string }[] }[] = [];
      for (const [run, ids] of lot.ids.runs)
        files.push({ run, files: await spoolRaw({ store: this.store, reader, folder }, ids.files) });
      return this.workers.run('evaluate lot', { bundle: lot.bundle, files }, options);
    });
    await this.records.change(job, 'lot evaluated', async (rows) => {
      const kept = await keepEvaluation(rows, this.store, lot, evaluation, recordsRaw);
      await this.jobs.endWithin(rows, job, { outcome: 'done', evaluationId: kept.id });
    });
  }
}

async function inList(reader: Reader, evaluation: tables.Evaluation): Promise<EvaluationInList> {
  const { number, content, at, software } = evaluation;
  const documents = await reader.find(tables.Document, { evaluationId: evaluation.id });
  return {
    number,
    lot: content.lot,
    plan: content.plan,
    outcome: content.outcome,
    sentence: content.sentence,
    at: at.toISOString(),
    by: (await reader.one(tables.Person, evaluation.personId)).key,
    software,
    documents: documents.map((one) => one.number),
  };
}
