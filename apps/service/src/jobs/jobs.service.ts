import { type Problem, Refusal } from '@breakbook/lab';
import { type Actor, newId, type Reader, Records, type Rows, tables } from '@breakbook/records';
import { Injectable } from '@nestjs/common';
import { DataSource, type EntityManager } from 'typeorm';
import { validate } from 'uuid';
import { Quotas } from '../quotas/quotas.js';
import type { SignedInActor } from '../sign-in/signed-in.decorator.js';
import type { Job, JobAnswer, JobKind, JobState, JobSubjects } from './job.js';
import { JobBell, ringing } from './job-bell.js';
import { JobQueue } from './job-queue.js';

/** Of these something is taken away from the lab. */
const EXPORTS: readonly JobKind[] = [
  'lot test report',
  'run sheet',
  'specimen record',
  'label sheet',
  'document batch',
  'signed document',
  'lot package',
  'comparison report',
];

/** A batch counts once, however often it is gone on with. */
function isExport(kind: JobKind, subject: object): boolean {
  return EXPORTS.includes(kind) && !('batch' in subject);
}

/** How a job ended; where it was done, by which row. */
export type JobEnd =
  | { outcome: 'done'; evaluationId: string }
  | { outcome: 'done'; documentId: string }
  | { outcome: 'done'; recomputationId: string }
  | { outcome: 'done'; lotPackageId: string }
  | { outcome: 'done'; documentBatchId: string }
  | { outcome: 'done'; comparisonResultId: string }
  | { outcome: 'failed'; problems: Problem[] }
  | { outcome: 'cancelled' };

interface JobRow {
  id: string;
  lab_id: string;
  person_id: string;
  at: Date;
  kind: JobKind;
  subject: JobSubjects[JobKind];
}

interface EndRow {
  outcome: JobEnd['outcome'];
  problems: Problem[] | null;
  evaluation_id: string | null;
  document_id: string | null;
  recomputation_id: string | null;
  lot_package_id: string | null;
  document_batch_id: string | null;
  comparison_result_id: string | null;
}

/** Jobs: asked for, looked at, cancelled; how each ends is written once. */
@Injectable()
export class JobsService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly records: Records,
    private readonly queue: JobQueue,
    private readonly bell: JobBell,
    private readonly quotas: Quotas,
  ) {}

  /** Asks for work: it is noted and queued in one transaction. */
  async ask<Kind extends JobKind>(by: Actor, kind: Kind, subject: JobSubjects[Kind]): Promise<JobAnswer> {
    const id = newId();
    await this.dataSource.transaction(async (manager) => {
      await manager.query(
        'insert into job (lab_id, id, person_id, at, kind, subject) values ($1, $2, $3, now(), $4, $5)',
        [by.labId, id, by.personId, kind, JSON.stringify(subject)],
      );
      await this.queue.send(manager, { labId: by.labId, id });
      await manager.query(...ringing({ lab: by.labId, job: id, said: 'asked' }));
      if (isExport(kind, subject)) await this.quotas.take(manager, by, { exports: 1 });
    });
    return this.one(by.labId, id);
  }

  async one(labId: string, id: string): Promise<JobAnswer> {
    const job = await this.asked(labId, id);
    const reader = this.records.read(labId);
    const end = await endOf(reader.manager, labId, id);
    const state = end?.outcome ?? (await this.#openState(id));
    const progress = state === 'running' ? this.bell.progressOf(id) : undefined;
    const batch = await batchOf(reader, job);
    const numbered = end && {
      ...(end.evaluation_id ? { evaluation: (await reader.one(tables.Evaluation, end.evaluation_id)).number } : {}),
      ...(end.document_id ? { document: (await reader.one(tables.Document, end.document_id)).number } : {}),
      ...(end.recomputation_id
        ? { recomputation: (await reader.one(tables.Recomputation, end.recomputation_id)).number }
        : {}),
      ...(end.comparison_result_id
        ? { comparisonResult: (await reader.one(tables.ComparisonResult, end.comparison_result_id)).number }
        : {}),
      ...(end.lot_package_id ? { package: (await reader.one(tables.LotPackage, end.lot_package_id)).number } : {}),
      ...(end.problems ? { problems: end.problems } : {}),
    };
    return {
      id,
      kind: job.kind,
      subject: job.subject,
      askedBy: (await reader.one(tables.Person, job.personId)).key,
      askedAt: job.at.toISOString(),
      state,
      ...(progress ? { progress } : {}),
      ...(batch === undefined ? {} : { batch }),
      ...numbered,
    };
  }

  /** What was asked for; refused where there is no such job in the lab. */
  async asked(labId: string, id: string): Promise<Job> {
    const [row] = validate(id)
      ? await this.dataSource.query<JobRow[]>('select * from job where lab_id = $1 and id = $2', [labId, id])
      : [];
    if (!row) throw new Refusal({ code: 'request.not-found', detail: `There is no job "${id}" in this lab.` });
    return { id, labId, personId: row.person_id, at: row.at, kind: row.kind, subject: row.subject };
  }

  /** Has the job ended, however? */
  async hasEnded({ labId, id }: Pick<Job, 'labId' | 'id'>): Promise<boolean> {
    return (await endOf(this.dataSource.manager, labId, id)) !== undefined;
  }

  /**
   * Cancels a job, whenever: its end is one row, so either the job's effect is kept or the cancelling, never both.
   */
  async cancel(by: SignedInActor, id: string): Promise<JobAnswer> {
    const job = await this.asked(by.labId, id);
    if (job.personId !== by.personId && !by.duties.includes('administer'))
      throw new Refusal({
        code: 'auth.forbidden',
        detail: 'Somebody else asked for this job.',
        action: 'Ask them, or an administrator of the lab, to cancel it.',
      });
    if (!(await this.end(job, { outcome: 'cancelled' })))
      throw new Refusal({
        code: 'state.conflict',
        detail: 'This job has ended already.',
        action: 'Look at what came of it; nothing was changed.',
      });
    return this.one(by.labId, id);
  }

  /** Writes a job's end outside a change of records; false where it has ended already. */
  async end({ labId, id }: Pick<Job, 'labId' | 'id'>, end: JobEnd): Promise<boolean> {
    return this.dataSource.transaction(async (manager) => {
      const written = await writeEnd(manager, labId, id, end);
      if (written) await manager.query(...ringing({ lab: labId, job: id, said: 'ended' }));
      return written;
    });
  }

  /** Ends a job within the change that is its effect. Where it has ended already, the change comes to nothing. */
  async endWithin(rows: Rows, { id }: Pick<Job, 'id'>, end: JobEnd): Promise<void> {
    if (!(await writeEnd(rows.manager, rows.labId, id, end))) throw new JobEnded();
    await rows.manager.query(...ringing({ lab: rows.labId, job: id, said: 'ended' }));
  }

  /** Within a change that is a part of the job's effect: refused where the job has ended already. */
  async requireOpen({ manager, labId }: Rows, { id }: Pick<Job, 'id'>): Promise<void> {
    if (await endOf(manager, labId, id)) throw new JobEnded();
  }

  async #openState(id: string): Promise<JobState> {
    return (await this.queue.isActive(id)) ? 'running' : 'waiting';
  }
}

/** The job was cancelled, or done by another process, while it was at work here. */
export class JobEnded extends Error {
  override name = 'JobEnded';
}

/** The batch that a job began, which has its id, or goes on with. */
async function batchOf(reader: Reader, { id, kind, subject }: Job): Promise<number | undefined> {
  if (kind !== 'document batch') return undefined;
  const { batch } = subject as JobSubjects['document batch'];
  return batch ?? (await reader.maybe(tables.DocumentBatch, { id }))?.number;
}

async function endOf(manager: EntityManager, labId: string, id: string): Promise<EndRow | undefined> {
  const [end] = await manager.query<EndRow[]>(
    `select outcome, problems, evaluation_id, document_id, recomputation_id, lot_package_id, document_batch_id,
       comparison_result_id
     from job_end where lab_id = $1 and id = $2`,
    [labId, id],
  );
  return end;
}

async function writeEnd(manager: EntityManager, labId: string, id: string, end: JobEnd): Promise<boolean> {
  const written = await manager.query<unknown[]>(
    `insert into job_end (lab_id, id, outcome, problems, evaluation_id, document_id, recomputation_id,
       lot_package_id, document_batch_id, comparison_result_id)
     values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10)
     on conflict do nothing returning id`,
    [
      labId,
      id,
      end.outcome,
      'problems' in end ? JSON.stringify(end.problems) : null,
      'evaluationId' in end ? end.evaluationId : null,
      'documentId' in end ? end.documentId : null,
      'recomputationId' in end ? end.recomputationId : null,
      'lotPackageId' in end ? end.lotPackageId : null,
      'documentBatchId' in end ? end.documentBatchId : null,
      'comparisonResultId' in end ? end.comparisonResultId : null,
    ],
  );
  return written.length > 0;
}
