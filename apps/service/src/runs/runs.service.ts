import type { TracePlotInput } from '@breakbook/figures';
import { Refusal, type Run } from '@breakbook/lab';
import { type RawStore, Records, type Rows } from '@breakbook/records';
import { Inject, Injectable, type OnModuleInit } from '@nestjs/common';
import type { FastifyRequest } from 'fastify';
import { reports } from '../arithmetic.js';
import { parsedBy } from '../http/parsed-by.js';
import { Quotas } from '../quotas/quotas.js';
import type { PageOf } from '../records/kept.js';
import { RAW_STORE } from '../records/raw-store.token.js';
import { useRetest } from '../retests/use-retest.js';
import type { SignedInActor } from '../sign-in/signed-in.decorator.js';
import { AnsweredUploads, digestOfUpload, type UploadKey, uploadKeyOf } from '../uploads/answered-uploads.js';
import { readUpload } from '../uploads/read-upload.js';
import { inSpool, sweepSpools } from '../uploads/spool.js';
import { spoolRaw } from '../uploads/spool-raw.js';
import { Workers } from '../workers/workers.js';
import { NewRun } from './new-run.js';
import { type RecordedRun, recordRun } from './record-run.js';
import { type RecordedAnswer, type RunAnswer, recordedAnswer, runAnswer } from './run-answer.js';
import { runContext } from './run-context.js';
import { type RunInList, type RunsAsked, runPage } from './run-list.js';
import { bundleOfRun } from './run-problems.js';
import { runFiles, runRecord } from './run-record.js';

const newRun = parsedBy(NewRun);

/** Runs: recorded from an upload, and read. */
@Injectable()
export class RunsService implements OnModuleInit {
  constructor(
    private readonly records: Records,
    @Inject(RAW_STORE) private readonly store: RawStore,
    private readonly uploads: AnsweredUploads,
    private readonly workers: Workers,
    private readonly quotas: Quotas,
  ) {}

  onModuleInit(): Promise<void> {
    return sweepSpools();
  }

  /** Keeps the run that an upload describes; the same upload sent again hears the first answer again. */
  async record(by: SignedInActor, request: FastifyRequest): Promise<RecordedAnswer> {
    try {
      const key = uploadKeyOf(by, request.headers['idempotency-key']);
      return await this.uploads.alone(key, () => inSpool((folder) => this.#recordUpload(by, key, request, folder)));
    } catch (error) {
      // Whoever sent a file that was refused is told what became of it, also where that is nothing.
      if (error instanceof Refusal) error.stored = { stored: false, ...error.stored };
      throw error;
    }
  }

  async #recordUpload(
    by: SignedInActor,
    key: UploadKey,
    request: FastifyRequest,
    folder: string,
  ): Promise<RecordedAnswer> {
    const upload = await readUpload(request, folder);
    const digest = digestOfUpload(upload);
    const before = await this.uploads.before<RecordedAnswer>(key, digest);
    if (before) return before;

    const sent = newRun.transform(upload.description, { type: 'body' });
    const keep = (rows: Rows, answer: RecordedAnswer) => this.uploads.keep(rows, key, digest, answer);
    try {
      return await this.recordSent(by, sent, upload.files, { keep });
    } catch (error) {
      // Another process was first with the same upload, in the same moment.
      const first = error instanceof Refusal ? await this.uploads.before<RecordedAnswer>(key, digest) : undefined;
      if (first) return first;
      throw error;
    }
  }

  /** Keeps a run whose files lie in a folder. */
  async recordSent(
    by: SignedInActor,
    { plan, ...sent }: NewRun,
    files: { name: string; path: string }[],
    options: { keep?: (rows: Rows, answer: RecordedAnswer) => Promise<void>; unreadFileId?: string } = {},
  ): Promise<RecordedAnswer> {
    requireOwnRig(by, sent);
    const run = { ...sent, receivedAt: new Date().toISOString() };
    const answerOf = (recorded: RecordedRun) => recordedAnswer(run, recorded);
    const recorded = await recordRun(this.records, this.store, by, run, files, {
      plan,
      read: (input) => this.workers.run('read run', input),
      before: (bytes) => this.quotas.requireLeft(by, { runs: 1, bytes }),
      alongside: async (rows, one) => {
        await useRetest(rows, one.runId);
        await options.keep?.(rows, answerOf(one));
        await this.quotas.take(rows.manager, by, { runs: 1, bytes: one.bytes });
      },
      besideUnread: (rows, bytes) => this.quotas.take(rows.manager, by, { bytes }),
      ...(options.unreadFileId === undefined ? {} : { unreadFileId: options.unreadFileId }),
    });
    return answerOf(recorded);
  }

  list(labId: string, asked: RunsAsked): Promise<PageOf<RunInList>> {
    return runPage(this.records.read(labId), asked);
  }

  async one(labId: string, runKey: string): Promise<RunAnswer> {
    const reader = this.records.read(labId);
    return runAnswer(reader, await runRecord(reader, runKey));
  }

  /** A run's record as it is drawn, with the moments its results were read from. */
  async trace(labId: string, runKey: string): Promise<{ trace: TracePlotInput | null }> {
    const reader = this.records.read(labId);
    const record = await runRecord(reader, runKey);
    const { run, plan, method } = record;
    const context = await runContext(reader, { ...run, plan });
    const bundle = await bundleOfRun(reader, context, run);
    const { reading, channels } = await inSpool(async (folder) => {
      const files = await spoolRaw({ store: this.store, reader, folder }, record.files);
      return this.workers.run('evaluate run', { bundle, run: run.run, files });
    });
    if (channels.length === 0) return { trace: null };
    const { tracePlotOf } = await reports();
    return { trace: tracePlotOf({ run, method, reading, channels }) };
  }

  /** One file of a run, bit for bit. It is read through once before, so that nothing damaged is ever handed on. */
  async file(
    labId: string,
    runKey: string,
    n: number,
  ): Promise<{ name: string; size: number; sha256: string; bytes: AsyncIterable<Uint8Array> }> {
    const reader = this.records.read(labId);
    const { noun } = await runRecord(reader, runKey);
    const file = (await runFiles(reader, noun.id))[n - 1];
    if (!file)
      throw new Refusal({ code: 'request.not-found', detail: `Run ${runKey} has no file ${n}; files count from 1.` });
    for await (const _ of this.store.read(reader, file.rawId)); // Reading is checking.
    return { ...file, bytes: this.store.read(reader, file.rawId) };
  }
}

/** A rig's computer sends what its own rig recorded, and nothing else. */
function requireOwnRig(by: SignedInActor, { rig }: Pick<Run, 'rig'>): void {
  if (by.rig === undefined || by.rig.rig === rig) return;
  throw new Refusal({
    code: 'auth.forbidden',
    pointer: '/rig',
    detail: `This token sends runs of rig ${by.rig.rig}; the run names ${rig === undefined ? 'no rig' : `rig ${rig}`}.`,
  });
}
