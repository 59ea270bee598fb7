import { type Digest, digestOf } from '@breakbook/evidence';
import { Refusal } from '@breakbook/lab';
import { In } from 'typeorm';
import type { Reader } from '../change/reader.js';
import type { Records } from '../change/records.js';
import type { Actor, Rows } from '../change/rows.js';
import { RawBytes, UnreadClosing, UnreadFile, UnreadPart } from '../entities/index.js';
import type { PreparedRaw } from './raw-source.js';
import type { RawStore } from './raw-store.js';

/** The parts of one run, as they were sent. */
export interface SentPart {
  name: string;
  bytes: PreparedRaw;
}

/** How many files one caller may have waiting, and how many bytes in all. */
export interface UnreadQuota {
  files: number;
  bytes: number;
}

export const UNREAD_QUOTA: UnreadQuota = { files: 100, bytes: 2 * 1024 ** 3 };

export type UnreadState = 'waiting' | 'read' | 'discarded';

/** What became of the bytes of a refused file. */
export type KeptUnread =
  | { stored: 'unread'; unreadFileId: string; number: number; state: UnreadState }
  /** Too much of this caller's is waiting already; the problem is added to the others. */
  | { stored: false; refusal: Refusal };

/**
 * Keeps the bytes of a run file that was refused: a destroyed wheel cannot be run again. It makes no run and takes no
 * number from the file. The same bytes refused again are the same unread file, and leave no second entry. What is done
 * `alongside` is done last in the change, and may refuse it.
 */
export async function keepUnread(
  records: Records,
  store: RawStore,
  by: Actor,
  parts: SentPart[],
  refused: Refusal,
  {
    quota = UNREAD_QUOTA,
    alongside,
  }: { quota?: UnreadQuota; alongside?: (rows: Rows, bytes: number) => Promise<void> } = {},
): Promise<KeptUnread> {
  const partsSha256 = digestOfParts(parts);
  const known = await findUnread(records.read(by.labId), partsSha256);
  if (known) return known;
  const overQuota = await quotaRefusal(records.read(by.labId), by, parts, quota);
  if (overQuota) return { stored: false, refusal: overQuota };

  try {
    const { id, number } = await records.change(by, 'file kept unread', async (rows) => {
      const file = await rows.add(UnreadFile, {
        partsSha256,
        problems: refused.problems,
        problemCount: refused.problemCount,
      });
      for (const [index, { name, bytes }] of parts.entries()) {
        const raw = await store.keep(rows, bytes);
        await rows.add(UnreadPart, { unreadFileId: file.id, position: index + 1, name, rawId: raw.id });
      }
      await alongside?.(rows, sizeOf(parts));
      return file;
    });
    return { stored: 'unread', unreadFileId: id, number, state: 'waiting' };
  } catch (error) {
    // The same bytes came twice at once, and the other was first.
    const other = error instanceof Refusal ? await findUnread(records.read(by.labId), partsSha256) : undefined;
    if (other) return other;
    throw error;
  }
}

/** Of all parts together, in bytes. */
export function sizeOf(parts: readonly { bytes: { size: number } }[]): number {
  return parts.reduce((total, { bytes }) => total + bytes.size, 0);
}

/** By the digests of its parts in order, so that names do not matter. */
export function digestOfParts(parts: { bytes: { sha256: Digest } }[]): Digest {
  return digestOf(parts.map(({ bytes }) => bytes.sha256));
}

/** The unread file of these bytes, if they are one already. */
async function findUnread(reader: Reader, partsSha256: Digest): Promise<KeptUnread | undefined> {
  const file = await reader.maybe(UnreadFile, { partsSha256 });
  if (!file) return undefined;
  return { stored: 'unread', unreadFileId: file.id, number: file.number, state: await unreadState(reader, file.id) };
}

export async function unreadState(reader: Reader, unreadFileId: string): Promise<UnreadState> {
  return (await reader.maybe(UnreadClosing, { unreadFileId }))?.outcome ?? 'waiting';
}

async function quotaRefusal(
  reader: Reader,
  by: Actor,
  parts: SentPart[],
  quota: UnreadQuota,
): Promise<Refusal | undefined> {
  const waiting = (await waitingFiles(reader)).filter(({ personId }) => personId === by.personId);
  const partsWaiting = await reader.find(UnreadPart, { unreadFileId: In(waiting.map(({ id }) => id)) });
  const bytesWaiting = await reader.find(RawBytes, { id: In(partsWaiting.map(({ rawId }) => rawId)) });
  const bytes = bytesWaiting.reduce((total, { size }) => total + size, 0) + sizeOf(parts);
  if (waiting.length < quota.files && bytes <= quota.bytes) return undefined;
  return new Refusal({
    code: 'unread.quota',
    detail:
      `${waiting.length} unread files of yours are waiting, and with this one they would hold ${bytes} bytes; ` +
      `${quota.files} files and ${quota.bytes} bytes are allowed. This file was not kept.`,
    action: 'Have the waiting files read or discarded, keep this file yourself until then, and send it again.',
  });
}

/** The files neither read nor discarded yet, the oldest first. */
export function waitingFiles({ manager, labId }: Reader): Promise<UnreadFile[]> {
  return manager
    .createQueryBuilder(UnreadFile, 'file')
    .where('file.labId = :labId', { labId })
    .andWhere(
      'not exists (select from unread_closing closing where closing.lab_id = file.lab_id and closing.unread_file_id = file.id)',
    )
    .orderBy('file.id')
    .getMany();
}

/** The parts of an unread file, in order, to be read again. */
export function unreadParts(reader: Reader, unreadFileId: string): Promise<UnreadPart[]> {
  return reader.find(UnreadPart, { unreadFileId }, { position: 'asc' });
}

/** Notes, in the change that records the run, that a waiting file was read into it. */
export async function closeAsRead(rows: Rows, unreadFileId: string, runId: string): Promise<UnreadClosing> {
  await requireWaiting(rows, unreadFileId);
  return rows.add(UnreadClosing, { unreadFileId, outcome: 'read', runId, reason: null });
}

/** Discards a waiting file, which a second person does, with a reason. Its bytes stay, as all evidence does. */
export function discardUnread(
  records: Records,
  by: Actor,
  unreadFileId: string,
  reason: string,
): Promise<UnreadClosing> {
  return records.change(by, 'unread file discarded', reason, async (rows) => {
    const file = await requireWaiting(rows, unreadFileId);
    if (file.personId === by.personId) {
      throw new Refusal({
        code: 'duty.conflict',
        detail: `You sent unread file ${file.number} yourself; somebody else decides that it is not needed.`,
        action: 'Ask a colleague to look at it and to discard it.',
      });
    }
    return rows.add(UnreadClosing, { unreadFileId, outcome: 'discarded', runId: null, reason });
  });
}

async function requireWaiting(rows: Rows, unreadFileId: string): Promise<UnreadFile> {
  const file = await rows.oneLocked(UnreadFile, unreadFileId);
  const state = await unreadState(rows, unreadFileId);
  if (state === 'waiting') return file;
  throw new Refusal({
    code: 'unread.closed',
    detail: `Unread file ${file.number} was ${state} already.`,
    action: 'Nothing is to be done about it any more.',
  });
}
