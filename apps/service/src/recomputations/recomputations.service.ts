import { addedAndChanged, differencesBetween } from '@breakbook/evidence';
import { type Reading, Refusal, SOFTWARE, withoutSoftware } from '@breakbook/lab';
import { EvidenceDamaged, type RawStore, type Reader, Records, tables } from '@breakbook/records';
import { Inject, Injectable, type OnModuleInit } from '@nestjs/common';
import type { Job, JobAnswer } from '../jobs/job.js';
import { JobRunner } from '../jobs/job-runner.js';
import { JobsService } from '../jobs/jobs.service.js';
import { RAW_STORE } from '../records/raw-store.token.js';
import { runToRead } from '../runs/record-run.js';
import { runContext } from '../runs/run-context.js';
import { type RunRecord, runRecord } from '../runs/run-record.js';
import type { SignedInActor } from '../sign-in/signed-in.decorator.js';
import { inSpool } from '../uploads/spool.js';
import { spoolRaw } from '../uploads/spool-raw.js';
import { type TaskOptions, Workers } from '../workers/workers.js';
import { judgedAgain, judgedThen } from './judged-again.js';
import {
  inList,
  type RecomputationAnswer,
  type RecomputationInList,
  recomputationAnswer,
} from './recomputation-answer.js';

/** More of one run or evaluation are counted, not kept. */
const MOST_KEPT = 20;

/** Recomputations: every run of the lab read again from its kept bytes, every evaluation judged again, and both compared with what was kept. */
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
    return answers.map(inList);
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
    const evaluations = await reader.find(tables.Evaluation, {}, { number: 'asc' });
    const all = runs.length + evaluations.length;
    const content: Required<tables.RecomputationContent> = {
      runs: runs.length,
      ...nothingYet(),
      evaluations: { evaluations: evaluations.length, ...nothingYet() },
    };
    for (const [done, { key }] of runs.entries()) {
      signal.throwIfAborted();
      onProgress({ share: done / all, at: `reading run ${key} again` });
      const record = await runRecord(reader, key);
      const kept = record.reading.content;
      await compare(content, { run: key }, { method: kept.method, software: kept.software }, kept, () =>
        this.#readAgain(reader, record, signal),
      );
    }
    for (const [done, evaluation] of evaluations.entries()) {
      signal.throwIfAborted();
      const { number, software } = evaluation;
      const { lot } = evaluation.content;
      onProgress({ share: (runs.length + done) / all, at: `judging lot ${lot} again, evaluation ${number}` });
      const kept = await judgedThen(reader, evaluation);
      await compare(content.evaluations, { evaluation: number, lot }, { software }, kept, () =>
        judgedAgain(evaluation, { reader, store: this.store, workers: this.workers }, { signal }),
      );
    }
    await this.records.change(job, 'runs recomputed', async (rows) => {
      const kept = await rows.add(tables.Recomputation, { software: SOFTWARE, content });
      await this.jobs.endWithin(rows, job, { outcome: 'done', recomputationId: kept.id });
    });
  }

  async #readAgain(reader: Reader, { run, plan, files }: RunRecord, signal: AbortSignal): Promise<Reading> {
    const context = await runContext(reader, { ...run, plan });
    return inSpool(async (folder) => {
      const spooled = await spoolRaw({ store: this.store, reader, folder }, files);
      return this.workers.run('read run', runToRead(context, run, spooled), { signal });
    });
  }
}

/** How the things of one kind came out. */
interface Tally<Subject, Since> {
  identical: number;
  different: (Subject & Since & tables.Recomputed)[];
  refused: (Subject & { because: string })[];
}

function nothingYet() {
  return { identical: 0, different: [], refused: [] };
}

/**
 * Notes how one thing comes out again. Another version of the software that comes to the same is no difference. What
 * cannot be worked out any more is told among the others, and keeps none of them from being compared.
 */
async function compare<Subject, Since extends { software: string }>(
  tally: Tally<Subject, Since>,
  subject: Subject,
  since: Since,
  kept: object,
  again: () => Promise<object>,
): Promise<void> {
  let now: object;
  try {
    now = await again();
  } catch (error) {
    const known = (error instanceof Refusal && error.code !== 'service.busy') || error instanceof EvidenceDamaged;
    if (!known) throw error;
    tally.refused.push({ ...subject, because: error.message });
    return;
  }
  const differences = differencesBetween(withoutSoftware(kept), withoutSoftware(now));
  if (differences.length === 0) {
    tally.identical += 1;
    return;
  }
  const { added, changed } = addedAndChanged(differences);
  const onlyAdded = differences.filter(({ kept }) => kept === undefined);
  tally.different.push({
    ...subject,
    ...since,
    differences: [...changed, ...onlyAdded].slice(0, MOST_KEPT),
    count: differences.length,
    added,
  });
}
