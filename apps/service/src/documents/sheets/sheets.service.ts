import { Refusal } from '@breakbook/lab';
import { type Reader, Records, tables } from '@breakbook/records';
import { Injectable, type OnModuleInit } from '@nestjs/common';
import { In } from 'typeorm';
import { reports } from '../../arithmetic.js';
import type { Job, JobAnswer } from '../../jobs/job.js';
import { JobRunner } from '../../jobs/job-runner.js';
import { JobsService } from '../../jobs/jobs.service.js';
import type { SignedInActor } from '../../sign-in/signed-in.decorator.js';
import type { TaskOptions } from '../../workers/workers.js';
import type { NewLabelSheet, NewRunSheet, NewSpecimenRecord } from './sheet-asked.js';
import { type MadeSheet, SheetMaker } from './sheet-maker.js';

/** Run sheets, specimen records and label sheets, each made as a job. */
@Injectable()
export class SheetsService implements OnModuleInit {
  constructor(
    private readonly records: Records,
    private readonly maker: SheetMaker,
    private readonly jobs: JobsService,
    private readonly runner: JobRunner,
  ) {}

  onModuleInit(): void {
    this.runner.handle('run sheet', async (job, options) => this.#keep(job, await this.#runSheet(job, options)));
    this.runner.handle('specimen record', async (job, options) =>
      this.#keep(job, await this.#specimenRecord(job, options)),
    );
    this.runner.handle('label sheet', async (job, options) =>
      this.#keep(job, await this.maker.labelSheet(job.labId, job.subject, job.at, options)),
    );
  }

  async askRunSheet(by: SignedInActor, run: string, { kind, ...print }: NewRunSheet): Promise<JobAnswer> {
    const noun = await this.records.read(by.labId).named(tables.Run, run);
    return this.jobs.ask(by, kind, { run: noun.key, ...print });
  }

  async askSpecimenRecord(
    by: SignedInActor,
    specimen: string,
    { kind, ...print }: NewSpecimenRecord,
  ): Promise<JobAnswer> {
    const noun = await this.records.read(by.labId).named(tables.Specimen, specimen);
    return this.jobs.ask(by, kind, { specimen: noun.key, ...print });
  }

  async askLabelSheet(by: SignedInActor, lotKey: string, { kind, ...asked }: NewLabelSheet): Promise<JobAnswer> {
    const reader = this.records.read(by.labId);
    const lot = await reader.named(tables.Lot, lotKey);
    await requirePlaceLeft(asked);
    await requireSpecimens(reader, lot, asked.specimens);
    return this.jobs.ask(by, kind, { lot: lot.key, ...asked });
  }

  async #runSheet(job: Job<'run sheet'>, options: TaskOptions): Promise<MadeSheet> {
    const reader = this.records.read(job.labId);
    const run = await reader.named(tables.Run, job.subject.run);
    const { lotId } = await reader.one(tables.Specimen, run.specimenId);
    const { key } = await reader.one(tables.Lot, lotId);
    return this.maker.runSheet(job.labId, await this.maker.lot(job.labId, key), job.subject, options);
  }

  async #specimenRecord(job: Job<'specimen record'>, options: TaskOptions): Promise<MadeSheet> {
    const reader = this.records.read(job.labId);
    const { lotId } = await reader.named(tables.Specimen, job.subject.specimen);
    const { key } = await reader.one(tables.Lot, lotId);
    return this.maker.specimenRecord(job.labId, await this.maker.lot(job.labId, key), job.subject, options);
  }

  async #keep(job: Job, made: MadeSheet): Promise<void> {
    await this.records.change(job, `${made.kind} made`, async (rows) => {
      const document = await this.maker.keep(rows, made);
      await this.jobs.endWithin(rows, job, { outcome: 'done', documentId: document.id });
    });
  }
}

/** Of the first sheet at least one place is left. */
async function requirePlaceLeft({ grid, used }: Pick<NewLabelSheet, 'grid' | 'used'>): Promise<void> {
  const { LABEL_GRIDS } = await reports();
  const { columns, rows } = LABEL_GRIDS[grid];
  const places = columns * rows;
  if (used < places) return;
  throw new Refusal({
    code: 'body.range',
    pointer: '/used',
    found: `${used}`,
    detail: `/used: a sheet "${grid}" has ${places} labels, and ${used} of them cannot be used up.`,
    expected: `0 to ${places - 1}`,
  });
}

/** Labels are of specimens of the lot: at least one, and none that is not there. */
async function requireSpecimens(reader: Reader, { id, key }: tables.Lot, named: string[] | undefined): Promise<void> {
  const found = await reader.find(tables.Specimen, { lotId: id, ...(named ? { key: In(named) } : {}) });
  const index = named?.findIndex((one) => found.every((specimen) => specimen.key !== one)) ?? -1;
  if (named && index >= 0)
    throw new Refusal({
      code: 'body.not-found',
      pointer: `/specimens/${index}`,
      found: named[index] ?? '',
      detail: `/specimens/${index} names specimen ${named[index]}, which is not in lot ${key}. Check the number.`,
    });
  if (found.length === 0)
    throw new Refusal({
      code: 'state.conflict',
      detail: `Lot ${key} has no specimens yet, so there is nothing to label.`,
      action: 'Receive its specimens first.',
    });
}
