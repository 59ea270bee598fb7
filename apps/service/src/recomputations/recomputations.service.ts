import { differencesBetween } from '@breakbook/evidence';
import { type Reading, Refusal, SOFTWARE } from '@breakbook/lab';
import { EvidenceDamaged, type RawStore, type Reader, Records, tables } from '@breakbook/records';
import { Inject, Injectable, type OnModuleInit } from '@nestjs/common';
import { type Job, type JobAnswer } from '../jobs/job.js';
import { JobRunner } from '../jobs/job-runner.js';
import { JobsService } from '../jobs/jobs.service.js';
import { RAW_STORE } from '../records/raw-store.token.js';
import { runToRead } from '../runs/record-run.js';
import { runContext } from '../runs/run-context.js';
import { type RunRecord, runRecord } from '../runs/run-record.js';
import { type SignedInActor } from '../sign-in/signed-in.decorator.js';
import { inSpool } from '../uploads/spool.js';
import { spoolRaw } from '../uploads/spool-raw.js';
import { type TaskOptions, Workers } from '../workers/workers.js';
import { type RecomputationAnswer, type RecomputationInList, recomputationAnswer } from './recomputation-answer.js';

/** More of one run are counted, not kept. */
const MOST_KEPT = 20;

/** Recomputations: every run of the lab read again from its kept bytes, and compared with what was kept of it. */
@Injectable()
export class RecomputationsService implements OnModuleInit {
  constructor(
    private readonly records: Records,
    @Inject(RAW_STORE) private readonly store: RawStore,
    private readonly workers: Workers,
    private readonly jobs: JobsService,
    private readonly runner: JobRunner,
  ) {}

  onModuleInit(): void {
    this.runner.handle('recomputation', (job, options) => this.#recompute(job, options));
  }

  ask(by: SignedInActor): Promise<JobAnswer> {
    return this.jobs.ask(by, 'recomputation', { runs: 'all' });
  }

  async list(labId: string): Promise<RecomputationInList[]> {
    const reader = this.records.read(labId);
    const all = await reader.find(tables.Recomputation, {}, { number: 'desc' });
    const answers = await Promise.all(all.map((one) => recomputationAnswer(reader, one)));
    return answers.map((one) => ({ ...one, different: one.different.length, refused: one.refused.length }));
  }

  async one(labId: string, number: number): Promise<RecomputationAnswer> {
    const reader = this.records.read(labId);
    const kept =
      (await reader.maybe(tables.Recomputation, { number })) ?? (await reader.one(tables.Recomputation, `${number}`));
    return recomputationAnswer(reader, kept);
  }

  async #recompute(job: Job<'recomputation'>, { signal, onProgress }: Required<TaskOptions>): Promise<void> {
    const reader = this.records.read(job.labId);
    const runs = await reader.find(tables.Run, {}, { number: 'asc' });
    const content: tables.RecomputationContent = { runs: runs.length, identical: 0, different: [], refused: [] };
    for (const [done, { key }] of runs.entries()) {
      signal.throwIfAborted();
      onProgress({ share: done / runs.length, at: `reading run ${key} again` });
      const record = await runRecord(reader, key);
      const now = await this.#readAgain(reader, record, signal);
      if ('because' in now) content.refused.push({ run: key, because: now.because });
      else noteComparison(content, record, now);
    }
    await this.records.change(job, 'runs recomputed', async (rows) => {
      const kept = await rows.add(tables.Recomputation, { software: SOFTWARE, content });
      await this.jobs.endWithin(rows, job, { outcome: 'done', recomputationId: kept.id });
    });
  }

  /** A run that cannot be read any more is told among the others, and keeps none of them from being read. */
  async #readAgain(
    reader: Reader,
    { run, plan, files }: RunRecord,
    signal: AbortSignal,
  ): Promise<Reading | { because: string }> {
    try {
      const context = await runContext(reader, { ...run, plan });
      return await inSpool(async (folder) => {
        const spooled = await spoolRaw({ store: this.store, reader, folder }, files);
        return this.workers.run('read run', runToRead(context, run, spooled), { signal });
      });
    } catch (error) {
      if (error instanceof Refusal && error.code !== 'service.busy') return { because: error.message };
      if (error instanceof EvidenceDamaged) return { because: error.message };
      throw error;
    }
  }
}

/** Another version of the software that comes to the same is no difference. */
function noteComparison(content: tables.RecomputationContent, { run, reading }: RunRecord, now: Reading): void {
  const { software, ...kept } = reading.content;
  const { software: _, ...again } = now;
  const differences = differencesBetween(kept, again);
  if (differences.length === 0) {
    content.identical += 1;
    return;
  }
  content.different.push({
    run: run.run,
    method: kept.method,
    software,
    differences: differences.slice(0, MOST_KEPT),
    count: differences.length,
  });
}
