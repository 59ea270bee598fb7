import { Instant, Key, type LotBundle, PLAIN_PRINT, type PrintChoice, Refusal, SOFTWARE } from '@breakbook/lab';
import { prepareRaw, type RawStore, type Reader, Records, rawFromBytes, readWhole, tables } from '@breakbook/records';
import { Inject, Injectable, type OnModuleInit } from '@nestjs/common';
import { In } from 'typeorm';
import { z } from 'zod';
import { refuseBlinded } from '../comparisons/blinds.js';
import { comparisonOfDocument } from '../comparisons/comparison-of-document.js';
import { reportAffairsOf } from '../dispositions/affairs-of.js';
import { evaluatedRecords } from '../evaluations/evaluated-records.js';
import { evaluationNumbered } from '../evaluations/evaluation-numbered.js';
import type { Job, JobAnswer } from '../jobs/job.js';
import { JobRunner } from '../jobs/job-runner.js';
import { JobsService } from '../jobs/jobs.service.js';
import type { PageOf } from '../records/kept.js';
import { nextPlace, PAGING, pageAsked } from '../records/paging.js';
import { RAW_STORE } from '../records/raw-store.token.js';
import { within } from '../records/within.js';
import type { SignedInActor } from '../sign-in/signed-in.decorator.js';
import { inSpool } from '../uploads/spool.js';
import { spoolRaw } from '../uploads/spool-raw.js';
import { type TaskOptions, Workers } from '../workers/workers.js';
import type { NewDocument } from './new-document.js';
import { reportIdentity } from './report-identity.js';

/** A document in a list. */
export const DocumentInList = z.strictObject({
  number: z.number().int(),
  kind: z.string(),
  evaluation: z.number().int().nullable(),
  lot: Key.nullable(),
  /** Of a run sheet or a specimen record. */
  run: Key.nullable(),
  specimen: Key.nullable(),
  /** Of a comparison report. */
  comparison: Key.nullable(),
  at: Instant,
  by: Key,
  software: z.string(),
  sha256: z.string(),
  size: z.number().int(),
  /** With which pair of keys the lab signed it; null for a draft. */
  signedWith: z.number().int().nullable(),
  /** Of a draft: the document that was signed in its place. */
  signedAs: z.number().int().nullable(),
});
export type DocumentInList = z.infer<typeof DocumentInList>;

/** Documents, of one lot, run, specimen or comparison where it is named. Those of a lot are told without what was made in batches. */
export const DocumentsAsked = z.strictObject({
  ...PAGING,
  lot: Key.optional(),
  run: Key.optional(),
  specimen: Key.optional(),
  comparison: Key.optional(),
});
export type DocumentsAsked = z.infer<typeof DocumentsAsked>;

const OF_LOT = `(
  exists (select from evaluation where lab_id = document.lab_id and id = document.evaluation_id and lot_id = :lotId)
  or ${ofSubject('lot_id', 'lotId')}
    and not exists (select from batch_document where lab_id = document.lab_id and document_id = document.id)
)`;

const OF_COMPARISON = `exists (
  select from comparison_document reported
  join comparison_conclusion concluded on concluded.lab_id = reported.lab_id and concluded.id = reported.conclusion_id
  where reported.lab_id = document.lab_id and reported.document_id = document.id
    and concluded.comparison_id = :comparisonId
)`;

function ofSubject(column: string, parameter: string): string {
  return `exists (
    select from document_subject where lab_id = document.lab_id and document_id = document.id and ${column} = :${parameter}
  )`;
}

/** A document with the data it was laid out from. */
export const DocumentAnswer = DocumentInList.extend({ content: z.unknown() });
export type DocumentAnswer = z.infer<typeof DocumentAnswer>;

/** Documents: made of an evaluation as a job, and handed out as they were kept. */
@Injectable()
export class DocumentsService implements OnModuleInit {
  constructor(
    private readonly records: Records,
    @Inject(RAW_STORE) private readonly store: RawStore,
    private readonly workers: Workers,
    private readonly jobs: JobsService,
    private readonly runner: JobRunner,
  ) {}

  onModuleInit(): void {
    this.runner.handle('lot test report', (job, options) => this.#compose(job, options));
  }

  async ask(by: SignedInActor, evaluationNumber: number, asked: NewDocument): Promise<JobAnswer> {
    const reader = this.records.read(by.labId);
    const evaluation = await evaluationNumbered(reader, evaluationNumber);
    await refuseSecond(reader, evaluation);
    const { kind: _, ...print } = asked;
    return this.jobs.ask(by, 'lot test report', { evaluation: evaluation.number, ...print });
  }

  /** A piece of the list, by short numbers; one more than asked for tells whether there is more. */
  async list(
    labId: string,
    { lot, run, specimen, comparison, ...paging }: DocumentsAsked,
  ): Promise<PageOf<DocumentInList>> {
    const reader = this.records.read(labId);
    const { limit, descending, after } = pageAsked(paging, 'number');
    const asked = reader.manager
      .createQueryBuilder(tables.Document, 'document')
      .where('document.labId = :labId', { labId })
      .orderBy('document.number', descending ? 'DESC' : 'ASC')
      .limit(limit + 1);
    if (after !== undefined) asked.andWhere(`document.number ${descending ? '<' : '>'} :after`, { after });
    const { lotId } = await within<tables.Evaluation, tables.Lot>(reader, tables.Lot, 'lot', lot);
    if (lotId !== undefined) asked.andWhere(OF_LOT, { lotId });
    const { runId } = await within<tables.Reading, tables.Run>(reader, tables.Run, 'run', run);
    if (runId !== undefined) asked.andWhere(ofSubject('run_id', 'runId'), { runId });
    const of = await within<tables.Run, tables.Specimen>(reader, tables.Specimen, 'specimen', specimen);
    if (of.specimenId !== undefined)
      asked.andWhere(ofSubject('specimen_id', 'specimenId'), { specimenId: of.specimenId });
    const { comparisonId } = (await within(reader, tables.Comparison, 'comparison', comparison)) as {
      comparisonId?: string;
    };
    if (comparisonId !== undefined) asked.andWhere(OF_COMPARISON, { comparisonId });
    const documents = await asked.getMany();
    const items = await Promise.all(documents.slice(0, limit).map((one) => inList(reader, one)));
    return { items, next: nextPlace(items.at(-1)?.number, documents.length > limit) };
  }

  async one(by: SignedInActor, number: number): Promise<DocumentAnswer> {
    const reader = this.records.read(by.labId);
    const document = await documentNumbered(reader, number);
    const listed = await inList(reader, document);
    if (listed.lot !== null) await refuseBlinded(reader, by, listed.lot, `Document ${number}`);
    return { ...listed, content: document.content };
  }

  /** The paper as it was kept, every byte checked. */
  async pdf(by: SignedInActor, number: number): Promise<{ name: string; sha256: string; bytes: Uint8Array }> {
    const reader = this.records.read(by.labId);
    const document = await documentNumbered(reader, number);
    const { lot } = await inList(reader, document);
    if (lot !== null) await refuseBlinded(reader, by, lot, `Document ${number}`);
    const { sha256 } = await reader.one(tables.RawBytes, document.rawId);
    const name = `${document.kind.replaceAll(' ', '-')}-${document.number}.pdf`;
    return { name, sha256, bytes: await readWhole(this.store, reader, document.rawId) };
  }

  async #compose(job: Job<'lot test report'>, options: Required<TaskOptions>): Promise<void> {
    const reader = this.records.read(job.labId);
    const evaluation = await evaluationNumbered(reader, job.subject.evaluation);
    await refuseSecond(reader, evaluation);
    const bundle = await this.#recordsOf(reader, evaluation);
    const { content, pdf } = await inSpool(async (folder) => {
      const files: { run: string; files: { name: string; path: string }[] }[] = [];
      for (const run of bundle.runs)
        files.push({
          run: run.run,
          files: await spoolRaw({ store: this.store, reader, folder }, await keptFiles(reader, run.files)),
        });
      const input = {
        bundle,
        files,
        judged: evaluation.content,
        // The instant it was asked for, so that a job begun again lays out the same bytes.
        identity: reportIdentity(bundle.lot.lot, evaluation.number, job.at),
        affairs: await reportAffairsOf(reader, evaluation.lotId, new Date()),
        print: { ...PLAIN_PRINT, ...printOf(job.subject) },
      };
      return this.workers.run('compose report', input, options);
    });
    const raw = await prepareRaw(rawFromBytes(pdf));
    await this.records.change(job, 'report composed', async (rows) => {
      await rows.lock(tables.Evaluation, evaluation.id);
      await refuseSecond(rows, evaluation);
      const { id: rawId } = await this.store.keep(rows, raw);
      const document = await rows.add(tables.Document, {
        kind: job.kind,
        evaluationId: evaluation.id,
        rawId,
        software: SOFTWARE,
        content,
      });
      await this.jobs.endWithin(rows, job, { outcome: 'done', documentId: document.id });
    });
  }

  async #recordsOf(reader: Reader, evaluation: tables.Evaluation): Promise<LotBundle> {
    const records = await evaluatedRecords(reader, this.store, evaluation);
    if (records) return records;
    throw new Refusal({
      code: 'state.conflict',
      detail: `Evaluation ${evaluation.number} was made before records were kept beside an evaluation, so no document can be made that is sure to say what was judged.`,
      action: 'Evaluate the lot again.',
    });
  }
}

function printOf({ paper, language, units }: Job<'lot test report'>['subject']): Partial<PrintChoice> {
  return { paper, ...(language ? { language } : {}), ...(units ? { units } : {}) };
}

/** One evaluation has one report; what replaces a report says what changed and why, and is no second first one. */
async function refuseSecond(reader: Reader, evaluation: tables.Evaluation): Promise<void> {
  const [document] = await reader.find(tables.Document, { evaluationId: evaluation.id }, { number: 'asc' });
  if (!document) return;
  throw new Refusal({
    code: 'state.conflict',
    detail: `Evaluation ${evaluation.number} has its ${document.kind} already: document ${document.number}.`,
    action: 'Look at that one. Where something has changed since, evaluate the lot again.',
  });
}

/** Where the bytes of a recorded run's files lie, by their digests. */
async function keptFiles(
  reader: Reader,
  files: LotBundle['runs'][number]['files'],
): Promise<{ name: string; rawId: string }[]> {
  const raws = await reader.find(tables.RawBytes, { sha256: In(files.flatMap(({ sha256 }) => sha256 ?? [])) });
  const idOf = new Map(raws.map(({ id, sha256 }) => [sha256, id]));
  return files.flatMap(({ name, sha256 = '' }) => {
    const rawId = idOf.get(sha256);
    return rawId ? [{ name, rawId }] : [];
  });
}

export async function documentNumbered(reader: Reader, number: number): Promise<tables.Document> {
  return (await reader.maybe(tables.Document, { number })) ?? reader.one(tables.Document, `${number}`);
}

async function inList(reader: Reader, document: tables.Document): Promise<DocumentInList> {
  const [evaluation, subject, raw, person, sealing, place] = await Promise.all([
    document.evaluationId ? reader.one(tables.Evaluation, document.evaluationId) : undefined,
    reader.maybe(tables.DocumentSubject, { documentId: document.id }),
    reader.one(tables.RawBytes, document.rawId),
    reader.one(tables.Person, document.personId),
    reader.maybe(tables.DocumentSealing, { documentId: document.id }),
    reader.maybe(tables.DocumentSealing, { draftId: document.id }),
  ]);
  return {
    number: document.number,
    kind: document.kind,
    evaluation: evaluation?.number ?? null,
    lot: evaluation?.content.lot ?? (subject ? (await reader.one(tables.Lot, subject.lotId)).key : null),
    run: subject?.runId ? (await reader.one(tables.Run, subject.runId)).key : null,
    specimen: subject?.specimenId ? (await reader.one(tables.Specimen, subject.specimenId)).key : null,
    comparison: (await comparisonOfDocument(reader, document))?.key ?? null,
    at: document.at.toISOString(),
    by: person.key,
    software: document.software,
    sha256: raw.sha256,
    size: Number(raw.size),
    signedWith: sealing ? (await reader.one(tables.SigningKey, sealing.signingKeyId)).number : null,
    signedAs: place ? (await reader.one(tables.Document, place.documentId)).number : null,
  };
}
