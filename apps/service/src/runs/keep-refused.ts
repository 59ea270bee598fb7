import { Refusal } from '@breakbook/lab';
import {
  type Actor,
  digestOfParts,
  keepUnread,
  type RawStore,
  type Reader,
  type Records,
  type Rows,
  type SentPart,
  tables,
  unreadState,
} from '@breakbook/records';

/** Keeps the bytes of a refused run, where they are worth keeping, and says in the refusal what became of them. */
export async function keepRefused(
  records: Records,
  store: RawStore,
  by: Actor,
  parts: SentPart[],
  refusal: Refusal,
  alongside?: (rows: Rows, bytes: number) => Promise<void>,
): Promise<void> {
  if (parts.length === 0 || !(await isKeptUnread(refusal, parts))) return;
  const kept = await keepUnread(records, store, by, parts, refusal, alongside ? { alongside } : {});
  if (kept.stored === 'unread') {
    refusal.stored = { stored: 'unread', unreadFileId: kept.unreadFileId };
    return;
  }
  for (const problem of kept.refusal.problems) refusal.also(problem);
  refusal.stored = { stored: false };
}

/** Refused for content, or left without a run though readable: the wheel cannot be broken again for another file. */
async function isKeptUnread({ code }: Refusal, parts: readonly SentPart[]): Promise<boolean> {
  if (code === 'run.duplicate' || code === 'file.empty' || code === 'file.too-large') return false;
  if (code === 'file.missing' || code === 'request.too-many-parts') return false;
  if (code === 'file.type-mismatch' || code === 'file.name-invalid') return false;
  if (code === 'file.compressed') return someGzip(parts);
  return (
    /^(file|csv|header|unit|meta|number|time|run)\./.test(code) ||
    code === 'specimen.destroyed' ||
    code === 'state.conflict'
  );
}

/** Of all packed files a later layout can have gzip read, and it alone. Told by its first bytes (RFC 1952, 2.3.1). */
async function someGzip(parts: readonly SentPart[]): Promise<boolean> {
  for (const { bytes } of parts)
    for await (const first of bytes.chunks()) {
      if (first[0] === 0x1f && first[1] === 0x8b) return true;
      break;
    }
  return false;
}

/** The unread file that holds exactly these parts and still waits, if there is one. */
export async function waitingUnread(reader: Reader, parts: SentPart[]): Promise<string | undefined> {
  if (parts.length === 0) return undefined;
  const file = await reader.maybe(tables.UnreadFile, { partsSha256: digestOfParts(parts) });
  return file && (await unreadState(reader, file.id)) === 'waiting' ? file.id : undefined;
}
