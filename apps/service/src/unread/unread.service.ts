import { Instant, Key, Problem, Refusal, shown } from '@breakbook/lab';
import {
  discardUnread,
  type RawStore,
  type Reader,
  Records,
  tables,
  type UnreadState,
  unreadParts,
  unreadState,
} from '@breakbook/records';
import { Inject, Injectable } from '@nestjs/common';
import { In } from 'typeorm';
import { z } from 'zod';
import { RAW_STORE } from '../records/raw-store.token.js';
import type { NewRun } from '../runs/new-run.js';
import type { RecordedAnswer } from '../runs/run-answer.js';
import { RunsService } from '../runs/runs.service.js';
import type { SignedInActor } from '../sign-in/signed-in.decorator.js';
import { inSpool } from '../uploads/spool.js';
import { spoolRaw } from '../uploads/spool-raw.js';

/** The bytes of a refused run, and what became of them. */
export const UnreadAnswer = z.strictObject({
  id: z.uuid(),
  number: z.number().int(),
  sentBy: Key,
  sentAt: Instant,
  parts: z.array(z.strictObject({ name: z.string(), sha256: z.string(), size: z.number().int() })),
  /** Why it was refused: the first hundred problems, and how many there were. */
  problems: z.array(Problem),
  problemCount: z.number().int(),
  state: z.enum(['waiting', 'read', 'discarded']),
  /** The run it was read into. */
  run: Key.optional(),
  closedBy: Key.optional(),
  reason: z.string().optional(),
});
export type UnreadAnswer = z.infer<typeof UnreadAnswer>;

/** Unread files: looked at, read again for the right run, or discarded by somebody else than their sender. */
@Injectable()
export class UnreadService {
  constructor(
    private readonly records: Records,
    @Inject(RAW_STORE) private readonly store: RawStore,
    private readonly runs: RunsService,
  ) {}

  /** A piece of the list, by short numbers; one more than asked for tells whether there is more. */
  async list(
    labId: string,
    state: UnreadState | 'any',
    page: { limit: number; descending: boolean; after?: number },
  ): Promise<{ items: UnreadAnswer[]; more: boolean }> {
    const reader = this.records.read(labId);
    const query = reader.manager
      .createQueryBuilder(tables.UnreadFile, 'file')
      .leftJoin(tables.UnreadClosing, 'closing', 'closing.labId = file.labId and closing.unreadFileId = file.id')
      .where('file.labId = :labId', { labId });
    if (state !== 'any') query.andWhere("coalesce(closing.outcome, 'waiting') = :state", { state });
    if (page.after !== undefined)
      query.andWhere(`file.number ${page.descending ? '<' : '>'} :after`, { after: page.after });
    const files = await query
      .orderBy('file.number', page.descending ? 'DESC' : 'ASC')
      .limit(page.limit + 1)
      .getMany();
    return {
      items: await Promise.all(files.slice(0, page.limit).map((one) => answerOf(reader, one))),
      more: files.length > page.limit,
    };
  }

  async one(labId: string, id: string): Promise<UnreadAnswer> {
    const reader = this.records.read(labId);
    return answerOf(reader, await reader.one(tables.UnreadFile, id));
  }

  /** One part, bit for bit. It is read through once before, so that nothing damaged is ever handed on. */
  async part(labId: string, id: string, n: string): Promise<{ size: number; bytes: AsyncIterable<Uint8Array> }> {
    const reader = this.records.read(labId);
    const file = await reader.one(tables.UnreadFile, id);
    const part = /^[1-9]\d{0,3}$/.test(n) ? (await unreadParts(reader, file.id))[Number(n) - 1] : undefined;
    if (!part)
      throw new Refusal({
        code: 'request.not-found',
        detail: `Unread file ${file.number} has no part ${shown(n)}; parts count from 1.`,
      });
    for await (const _ of this.store.read(reader, part.rawId)); // Reading is checking.
    const raw = await reader.one(tables.RawBytes, part.rawId);
    return { size: Number(raw.size), bytes: this.store.read(reader, part.rawId) };
  }

  /** Reads the kept bytes again, as the run described now: of another specimen, or under a later layout. */
  async read(by: SignedInActor, id: string, run: NewRun): Promise<RecordedAnswer> {
    const reader = this.records.read(by.labId);
    const file = await this.#waiting(reader, id);
    const parts = await unreadParts(reader, file.id);
    return inSpool(async (folder) =>
      this.runs.recordSent(by, run, await spoolRaw({ store: this.store, reader, folder }, parts), {
        unreadFileId: file.id,
      }),
    );
  }

  async discard(by: SignedInActor, id: string, reason: string): Promise<UnreadAnswer> {
    await this.records.read(by.labId).one(tables.UnreadFile, id);
    await discardUnread(this.records, by, id, reason);
    return this.one(by.labId, id);
  }

  async #waiting(reader: Reader, id: string): Promise<tables.UnreadFile> {
    const file = await reader.one(tables.UnreadFile, id);
    const state = await unreadState(reader, file.id);
    if (state === 'waiting') return file;
    throw new Refusal({
      code: 'unread.closed',
      detail: `Unread file ${file.number} was ${state} already.`,
      action: 'Nothing is to be done about it any more.',
    });
  }
}

async function answerOf(reader: Reader, file: tables.UnreadFile): Promise<UnreadAnswer> {
  const [parts, closing, sender] = await Promise.all([
    unreadParts(reader, file.id),
    reader.maybe(tables.UnreadClosing, { unreadFileId: file.id }),
    reader.one(tables.Person, file.personId),
  ]);
  const raws = await reader.find(tables.RawBytes, { id: In(parts.map(({ rawId }) => rawId)) });
  const rawOf = new Map(raws.map((raw) => [raw.id, raw]));
  return {
    id: file.id,
    number: file.number,
    sentBy: sender.key,
    sentAt: file.at.toISOString(),
    parts: parts.flatMap(({ name, rawId }) => {
      const raw = rawOf.get(rawId);
      return raw ? [{ name, sha256: raw.sha256, size: Number(raw.size) }] : [];
    }),
    problems: file.problems,
    problemCount: file.problemCount,
    state: closing?.outcome ?? 'waiting',
    ...(closing?.runId ? { run: (await reader.one(tables.Run, closing.runId)).key } : {}),
    ...(closing ? { closedBy: (await reader.one(tables.Person, closing.personId)).key } : {}),
    ...(closing?.reason ? { reason: closing.reason } : {}),
  };
}
