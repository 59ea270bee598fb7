import { canonicalJson } from '@breakbook/evidence';
import { Refusal, SOFTWARE } from '@breakbook/lab';
import { prepareRaw, type RawStore, type Reader, Records, rawFromBytes, tables } from '@breakbook/records';
import type { DocumentContents, ReportIdentity, ReportSignature } from '@breakbook/reports';
import { Inject, Injectable, type OnModuleInit } from '@nestjs/common';
import { In, IsNull } from 'typeorm';
import { z } from 'zod';
import { comparisonOfDocument } from '../comparisons/comparison-of-document.js';
import { AmendmentFields, type Job, type JobAnswer } from '../jobs/job.js';
import { JobRunner } from '../jobs/job-runner.js';
import { JobsService } from '../jobs/jobs.service.js';
import { RAW_STORE } from '../records/raw-store.token.js';
import { reviewersOf } from '../runs/reviews/reviewers-of.js';
import { requireOther } from '../sign-in/forbidden-pairs.js';
import type { SignedInActor } from '../sign-in/signed-in.decorator.js';
import { SealingService } from '../signing/sealing.service.js';
import { type TaskOptions, Workers } from '../workers/workers.js';
import { documentNumbered } from './documents.service.js';
import { printedPerson } from './printed-person.js';

/** A document authorised as it was shown; where another stands for the same lot, what changed and why. */
export const NewSigning = z.strictObject({
  /** Digest of the file that was shown. */
  shown: z.string().regex(/^[0-9a-f]{64}$/),
  ...AmendmentFields,
});
export type NewSigning = z.infer<typeof NewSigning>;

/** A certificate is signed as it is issued; every other kind is a draft first. */
type DraftContent = Exclude<DocumentContents[keyof DocumentContents], { document: 'certificate of test' }>;

/** Documents authorised by a person and signed by the lab. */
@Injectable()
export class DocumentSigningService implements OnModuleInit {
  constructor(
    private readonly records: Records,
    @Inject(RAW_STORE) private readonly store: RawStore,
    private readonly workers: Workers,
    private readonly jobs: JobsService,
    private readonly runner: JobRunner,
    private readonly sealing: SealingService,
  ) {}

  onModuleInit(): void {
    this.runner.handle('signed document', (job, options) => this.#sign(job, options));
  }

  async ask(by: SignedInActor, number: number, { shown, changed, because }: NewSigning): Promise<JobAnswer> {
    const reader = this.records.read(by.labId);
    const draft = await draftNumbered(reader, number);
    requireOther(by, 'issue a document', `document ${number}`, []);
    const { sha256 } = await reader.one(tables.RawBytes, draft.rawId);
    if (sha256 !== shown)
      throw new Refusal({
        code: 'state.conflict',
        detail: `Document ${number} is not what was shown: its digest is ${sha256}.`,
        action: 'Look at it as it is, and authorise that.',
      });
    const content = draft.content as DraftContent;
    await requireReviewed(reader, content);
    const replaced = await signedBefore(reader, draft);
    if (replaced && (changed === undefined || because === undefined))
      throw new Refusal({
        code: 'body.missing-field',
        pointer: changed === undefined ? '/changed' : '/because',
        detail: `There is a signed ${draft.kind} of the same already, ${replaced.number} rev. ${replaced.revision}; this one replaces it.`,
        expected: 'what changed against it, and why',
        action: 'Say both: they are printed at the head of the new one.',
      });
    // The pair that signs is there before the instant of issue is.
    await this.sealing.from(by.labId);
    const amendment = replaced ? { changed, because } : {};
    return this.jobs.ask(by, 'signed document', { document: number, ...amendment });
  }

  async #sign(job: Job<'signed document'>, options: Required<TaskOptions>): Promise<void> {
    const reader = this.records.read(job.labId);
    const draft = await draftNumbered(reader, job.subject.document);
    const shown = draft.content as DraftContent;
    const content: DraftContent = { ...shown, identity: await this.#identity(reader, draft, job) };
    const { number: document, revision } = content.identity;
    const json = canonicalJson(content);
    const { pdf, contentId, signingKeyId } = await this.sealing.seal(
      job,
      { kind: draft.kind, document, revision, json },
      (sealing) => this.workers.run('compose document', { content, sealing }, options),
    );
    const raw = await prepareRaw(rawFromBytes(pdf));
    await this.records.change(job, 'document signed', async (rows) => {
      await rows.lock(tables.Document, draft.id);
      await draftNumbered(rows, job.subject.document);
      const { id: rawId } = await this.store.keep(rows, raw);
      const { kind, evaluationId } = draft;
      const { id: documentId } = await rows.add(tables.Document, {
        kind,
        evaluationId,
        rawId,
        software: SOFTWARE,
        content,
      });
      await rows.add(tables.DocumentSealing, { documentId, contentId, signingKeyId, draftId: draft.id });
      const of = await rows.maybe(tables.DocumentSubject, { documentId: draft.id });
      if (of) {
        const { lotId, specimenId, runId } = of;
        await rows.add(tables.DocumentSubject, { documentId, lotId, specimenId, runId });
      }
      const compared = await rows.maybe(tables.ComparisonDocument, { documentId: draft.id });
      if (compared) await rows.add(tables.ComparisonDocument, { documentId, conclusionId: compared.conclusionId });
      await this.jobs.endWithin(rows, job, { outcome: 'done', documentId });
    });
  }

  async #identity(reader: Reader, draft: tables.Document, job: Job<'signed document'>): Promise<ReportIdentity> {
    const content = draft.content as DraftContent;
    const from = await this.sealing.from(job.labId);
    // Where the pair was replaced since it was asked for, the new one signs nothing of before it was made.
    const at = new Date(Math.max(job.at.getTime(), from.getTime())).toISOString();
    const replaced = await signedBefore(reader, draft);
    const { changed, because } = job.subject;
    return {
      ...content.identity,
      issuedAt: at,
      ...(replaced && changed !== undefined && because !== undefined
        ? { replaces: { number: replaced.number, revision: replaced.revision, changed, because } }
        : {}),
      signatures: [
        await printedPerson(reader, 'prepared', draft.personId, draft.at.toISOString()),
        ...(await reviewSignatures(reader, content)),
        await printedPerson(reader, 'authorised', job.personId, at),
      ],
    };
  }
}

/** A document that nobody has signed yet. */
async function draftNumbered(reader: Reader, number: number): Promise<tables.Document> {
  const document = await documentNumbered(reader, number);
  if (await reader.maybe(tables.DocumentSealing, { documentId: document.id }))
    throw new Refusal({
      code: 'state.conflict',
      detail: `Document ${number} is signed already.`,
      action: 'What replaces it is made of a later evaluation.',
    });
  const sealing = await reader.maybe(tables.DocumentSealing, { draftId: document.id });
  if (!sealing) return document;
  const { number: signed } = await reader.one(tables.Document, sealing.documentId);
  throw new Refusal({
    code: 'state.conflict',
    detail: `Document ${number} was signed already, as document ${signed}.`,
    action: 'Look at that one.',
  });
}

/** Reviewed and authorised before release (ISO/IEC 17025:2017, 7.8.1.1). */
async function requireReviewed(reader: Reader, content: DraftContent): Promise<void> {
  const unreviewed = [...(await reviewedRuns(reader, content))].filter(([, reviewer]) => reviewer === undefined);
  if (unreviewed.length === 0) return;
  const runs = unreviewed.map(([run]) => run).join(', ');
  throw new Refusal({
    code: 'state.conflict',
    detail: `Nobody has reviewed ${unreviewed.length === 1 ? 'run' : 'runs'} ${runs} as recorded now.`,
    action: 'Have every run reviewed that it tells of; a document is authorised after that.',
  });
}

/** The runs that a document tells of, each with who reviewed it. */
async function reviewedRuns(
  reader: Reader,
  content: DraftContent,
): Promise<Map<string, { key: string; id: string } | undefined>> {
  const runs = await Promise.all(runsOf(content).map(({ run }) => reader.named(tables.Run, run)));
  const reviewers = await reviewersOf(
    reader,
    runs.map(({ id }) => id),
  );
  const found = new Map<string, { key: string; id: string } | undefined>();
  for (const { id, key } of runs) {
    const reviewer = reviewers.get(id);
    found.set(key, reviewer === undefined ? undefined : await reader.named(tables.Person, reviewer));
  }
  return found;
}

/** Each reviewer once, with the last of their reviews. */
async function reviewSignatures(reader: Reader, content: DraftContent): Promise<ReportSignature[]> {
  const runs = await reviewedRuns(reader, content);
  const last = new Map<string, Date>();
  for (const [run, reviewer] of runs) {
    if (!reviewer) continue;
    const { id } = await reader.named(tables.Run, run);
    const at = (await reader.latestOf(tables.RunReview, [id])).get(id)?.at;
    const before = last.get(reviewer.id);
    if (at && (!before || at > before)) last.set(reviewer.id, at);
  }
  return Promise.all([...last].map(([person, at]) => printedPerson(reader, 'reviewed', person, at.toISOString())));
}

function runsOf(content: DraftContent): readonly { run: string }[] {
  if (content.document === 'label sheet') return [];
  if (content.document === 'comparison report') return content.case.runs;
  return content.document === 'specimen record' ? content.runs : content.bundle.runs;
}

/** The document of the same kind and thing that was signed last. Labels replace none: each is of a part by itself. */
async function signedBefore(reader: Reader, draft: tables.Document): Promise<ReportIdentity | undefined> {
  if (draft.kind === 'label sheet') return undefined;
  const signed: tables.Document[] = [];
  for (const document of await ofTheSame(reader, draft))
    if (document.kind === draft.kind && (await reader.maybe(tables.DocumentSealing, { documentId: document.id })))
      signed.push(document);
  const last = signed.toSorted((a, b) => a.number - b.number).at(-1);
  return last && (last.content as DraftContent).identity;
}

/** Documents about the lot or comparison that a report is about, or about the run or specimen that a sheet is of. */
async function ofTheSame(reader: Reader, draft: tables.Document): Promise<tables.Document[]> {
  const of = await reader.maybe(tables.DocumentSubject, { documentId: draft.id });
  if (of) {
    const { lotId, specimenId, runId } = of;
    const same = await reader.find(tables.DocumentSubject, {
      lotId,
      specimenId: specimenId ?? IsNull(),
      runId: runId ?? IsNull(),
    });
    return reader.find(tables.Document, { id: In(same.map(({ documentId }) => documentId)) });
  }
  const comparison = await comparisonOfDocument(reader, draft);
  if (comparison) {
    const conclusions = await reader.find(tables.ComparisonConclusion, { comparisonId: comparison.id });
    const same = await reader.find(tables.ComparisonDocument, { conclusionId: In(conclusions.map(({ id }) => id)) });
    return reader.find(tables.Document, { id: In(same.map(({ documentId }) => documentId)) });
  }
  if (draft.evaluationId === null) return [];
  const { lotId } = await reader.one(tables.Evaluation, draft.evaluationId);
  const evaluations = await reader.find(tables.Evaluation, { lotId });
  return reader.find(tables.Document, { evaluationId: In(evaluations.map(({ id }) => id)) });
}
