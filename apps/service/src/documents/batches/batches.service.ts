import { type Problem, Refusal } from '@breakbook/lab';
import { type RawStore, type Reader, Records, tables } from '@breakbook/records';
import { Inject, Injectable, type OnModuleInit } from '@nestjs/common';
import { refuseBlinded } from '../../comparisons/blinds.js';
import type { Job, JobAnswer } from '../../jobs/job.js';
import { type JobOptions, JobRunner } from '../../jobs/job-runner.js';
import { JobsService } from '../../jobs/jobs.service.js';
import { zipOf } from '../../packages/zip-of-files.js';
import { RAW_STORE } from '../../records/raw-store.token.js';
import type { SignedInActor } from '../../sign-in/signed-in.decorator.js';
import type { LotForSheets } from '../sheets/lot-for-sheets.js';
import { type MadeSheet, SheetMaker } from '../sheets/sheet-maker.js';
import {
  type BatchAnswer,
  type BatchInList,
  batchAnswer,
  batchInList,
  batchNumbered,
  type NewBatch,
} from './batch-answer.js';
import { batchItems } from './batch-items.js';

/** The lot is read anew after so many documents: each names the instant at which it was. */
const READ_AFTER = 25;
/** More problems are counted, not listed. */
const MOST_PROBLEMS = 20;

/** All sheets of a kind of a lot as one job, which can be given up and gone on with. */
@Injectable()
export class BatchesService implements OnModuleInit {
  constructor(
    private readonly records: Records,
    @Inject(RAW_STORE) private readonly store: RawStore,
    private readonly maker: SheetMaker,
    private readonly jobs: JobsService,
    private readonly runner: JobRunner,
  ) {}

  onModuleInit(): void {
    this.runner.handle('document batch', (job, options) => this.#make(job, options));
  }

  async ask(by: SignedInActor, lotKey: string, asked: NewBatch): Promise<JobAnswer> {
    const reader = this.records.read(by.labId);
    const lot = await reader.named(tables.Lot, lotKey);
    await batchItems(reader, lot, asked);
    return this.jobs.ask(by, 'document batch', { lot: lot.key, ...asked });
  }

  /** Makes what is not made yet of a batch that was given up or failed. */
  async goOn(by: SignedInActor, number: number): Promise<JobAnswer> {
    const reader = this.records.read(by.labId);
    const batch = await batchNumbered(reader, number);
    const { state, lot, made, of } = await batchInList(reader, batch);
    if (state !== 'stopped')
      throw new Refusal({
        code: 'state.conflict',
        detail:
          state === 'complete'
            ? `All ${of} documents of batch ${number} are made.`
            : `A job is at batch ${number}: ${made} of ${of} documents are made.`,
        action: state === 'complete' ? 'Look at them.' : 'Look at the job, or give it up first.',
      });
    const { items: _, ...asked } = batch.content;
    return this.jobs.ask(by, 'document batch', { lot, ...asked, batch: number });
  }

  async ofLot(labId: string, lotKey: string): Promise<BatchInList[]> {
    const reader = this.records.read(labId);
    const lot = await reader.named(tables.Lot, lotKey);
    const batches = await reader.find(tables.DocumentBatch, { lotId: lot.id }, { number: 'desc' });
    return Promise.all(batches.map((one) => batchInList(reader, one)));
  }

  async one(labId: string, number: number): Promise<BatchAnswer> {
    const reader = this.records.read(labId);
    return batchAnswer(reader, await batchNumbered(reader, number));
  }

  /** The documents made so far as one zip, each read from where it is kept when its turn comes. */
  async zip(by: SignedInActor, number: number): Promise<{ name: string; bytes: AsyncIterable<Uint8Array> }> {
    const reader = this.records.read(by.labId);
    const batch = await batchNumbered(reader, number);
    const { key: lot } = await reader.one(tables.Lot, batch.lotId);
    await refuseBlinded(reader, by, lot, `Batch ${number} of documents`);
    const files = await filesOf(reader, batch);
    const last = files.at(-1);
    if (!last)
      throw new Refusal({
        code: 'state.conflict',
        detail: `No document of batch ${number} is made yet.`,
        action: 'Wait until the first is.',
      });
    const read = (rawId: string) => this.store.read(reader, rawId);
    const packed = files.map(({ printed, rawId, size, sha256 }) => ({
      path: `${printed}.pdf`,
      title: printed,
      format: 'pdf',
      mediatype: 'application/pdf',
      content: { rawId, size: Number(size), sha256 },
    }));
    const { kind } = batch.content;
    return {
      name: `${kind.replaceAll(' ', '-')}s-${number}.zip`,
      bytes: zipOf(packed, { made: last.at, read }),
    };
  }

  async #make(job: Job<'document batch'>, options: JobOptions): Promise<void> {
    const { signal, onProgress } = options;
    const batch = await this.#batchOf(job);
    const { kind, items } = batch.content;
    const reader = this.records.read(job.labId);
    const made = new Set(
      (await reader.find(tables.BatchDocument, { batchId: batch.id })).map(({ position }) => position),
    );
    const refused: Problem[] = [];
    let lot: LotForSheets | undefined;
    let sinceRead = 0;
    for (const [index, item] of items.entries()) {
      const position = index + 1;
      if (made.has(position)) continue;
      await options.giveWay();
      signal.throwIfAborted();
      onProgress({ share: made.size / items.length, at: `${kind} ${made.size + 1} of ${items.length}` });
      if (kind !== 'label sheet' && (!lot || sinceRead >= READ_AFTER)) {
        lot = await this.maker.lot(job.labId, job.subject.lot);
        sinceRead = 0;
      }
      sinceRead += 1;
      try {
        const sheet = await this.#sheet(job, batch, item, lot, options);
        await this.#keep(job, batch, position, sheet, made.size + 1 === items.length);
        made.add(position);
      } catch (error) {
        // The others are made all the same; what was in the way of this one is told at the end.
        if (!(error instanceof Refusal) || error.code === 'service.busy' || error.code === 'service.unavailable')
          throw error;
        refused.push(...error.problems);
      }
    }
    if (refused.length > 0) throw new Refusal(refused.slice(0, MOST_PROBLEMS), refused.length);
    // Somebody else had made the last of it.
    if (!(await this.jobs.hasEnded(job))) await this.jobs.end(job, { outcome: 'done', documentBatchId: batch.id });
  }

  /** The batch that the job is to go on with, or the one it began: that has its own id, so a second start finds it. */
  async #batchOf(job: Job<'document batch'>): Promise<tables.DocumentBatch> {
    const reader = this.records.read(job.labId);
    const { batch: number, lot: lotKey, ...asked } = job.subject;
    if (number !== undefined) return batchNumbered(reader, number);
    const begun = await reader.maybe(tables.DocumentBatch, { id: job.id });
    if (begun) return begun;
    const lot = await reader.named(tables.Lot, lotKey);
    const items = await batchItems(reader, lot, asked);
    return this.records.change(job, 'batch of documents begun', async (rows) => {
      await this.jobs.requireOpen(rows, job);
      return rows.add(tables.DocumentBatch, { id: job.id, lotId: lot.id, content: { ...asked, items } });
    });
  }

  #sheet(
    { labId, subject }: Job<'document batch'>,
    { content }: tables.DocumentBatch,
    item: string[],
    lot: LotForSheets | undefined,
    { signal }: JobOptions,
  ): Promise<MadeSheet> {
    const { kind, paper, language, units, grid, code } = content;
    const print = { paper, language, units };
    const [key = ''] = item;
    if (!lot) {
      const labels = { lot: subject.lot, specimens: item, grid, code, language, used: 0 };
      return this.maker.labelSheet(labId, labels, new Date(), { signal });
    }
    return kind === 'run sheet'
      ? this.maker.runSheet(labId, lot, { run: key, ...print }, { signal })
      : this.maker.specimenRecord(labId, lot, { specimen: key, ...print }, { signal });
  }

  /** One document, its place in the batch, and with the last of them the end of the job: all of it or none. */
  async #keep(
    job: Job<'document batch'>,
    { id: batchId, content: { kind } }: tables.DocumentBatch,
    position: number,
    sheet: MadeSheet,
    last: boolean,
  ): Promise<void> {
    await this.records.change(job, `${kind} of a batch made`, async (rows) => {
      await this.jobs.requireOpen(rows, job);
      const { id: documentId } = await this.maker.keep(rows, sheet);
      await rows.add(tables.BatchDocument, { batchId, position, documentId });
      if (last) await this.jobs.endWithin(rows, job, { outcome: 'done', documentBatchId: batchId });
    });
  }
}

interface FileOfBatch {
  printed: string;
  rawId: string;
  size: string;
  sha256: string;
  at: Date;
}

async function filesOf({ manager, labId }: Reader, { id }: tables.DocumentBatch): Promise<FileOfBatch[]> {
  return manager.query(
    `select document.content #>> '{identity,number}' as printed, raw.id as "rawId", raw.size, raw.sha256, document.at
     from batch_document made
     join document on document.lab_id = made.lab_id and document.id = made.document_id
     join raw_bytes raw on raw.lab_id = document.lab_id and raw.id = document.raw_id
     where made.lab_id = $1 and made.batch_id = $2 order by made.position`,
    [labId, id],
  );
}
