import { Refusal } from '@breakbook/lab';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type TestDatabase, testDatabase } from '../../../../tests/database.js';
import { aLab, aLot, aPerson } from '../../../../tests/lab-fixture.js';
import type { Actor } from '../change/rows.js';
import { LedgerEntry, Run, UnreadFile } from '../entities/index.js';
import { PostgresRawStore } from './postgres-raw-store.js';
import { prepareRaw, rawFromBytes } from './raw-source.js';
import { readWhole } from './raw-store.js';
import { closeAsRead, discardUnread, keepUnread, unreadParts, unreadState, waitingFiles } from './unread-files.js';

describe('unread files', () => {
  const store = new PostgresRawStore();
  const refused = new Refusal({
    code: 'unit.missing',
    detail: 'burst-0417.csv, line 6, column 3 ("P rim") has no unit.',
    line: 6,
    column: 3,
    action: 'Write one after the name: P rim [kPa].',
  });
  let database: TestDatabase;
  let sender: Actor;
  let colleague: Actor;
  beforeAll(async () => {
    database = await testDatabase();
    sender = await aLab(database.records);
    colleague = await aPerson(database.records, sender, 'jorun');
  });
  afterAll(() => database.close());

  const parts = (...contents: string[]) =>
    Promise.all(
      contents.map(async (content, n) => ({
        name: `burst-0417-${n}.csv`,
        bytes: await prepareRaw(rawFromBytes(Buffer.from(content))),
      })),
    );
  const keep = async (...contents: string[]) => {
    const kept = await keepUnread(database.records, store, sender, await parts(...contents), refused);
    if (kept.stored !== 'unread') throw kept.refusal;
    return kept;
  };
  const entries = () => database.dataSource.manager.count(LedgerEntry, { where: { labId: sender.labId } });

  it('keeps the parts of one run together, in order, bit for bit, with one entry', async () => {
    const before = await entries();
    const { unreadFileId } = await keep('pressure\n', 'temperature\n');
    expect(await entries()).toBe(before + 1);

    const reader = database.records.read(sender.labId);
    const file = await reader.one(UnreadFile, unreadFileId);
    expect(file.problems).toEqual(refused.problems);
    const contents = await Promise.all(
      (await unreadParts(reader, unreadFileId)).map(async ({ name, rawId }) => [
        name,
        String(await readWhole(store, reader, rawId)),
      ]),
    );
    expect(contents).toEqual([
      ['burst-0417-0.csv', 'pressure\n'],
      ['burst-0417-1.csv', 'temperature\n'],
    ]);
  });

  it('is the same file when the same bytes are refused again, one after the other or at once', async () => {
    const first = await keep('again\n');
    const before = await entries();
    expect(await keep('again\n')).toEqual(first);
    expect(await entries()).toBe(before);

    const many = await Promise.all(Array.from({ length: 8 }, () => keep('all at once\n')));
    expect(new Set(many.map(({ unreadFileId }) => unreadFileId)).size).toBe(1);
    expect(await entries()).toBe(before + 1);
  });

  it('is discarded by a second person with a reason, once, and its bytes stay', async () => {
    const { unreadFileId } = await keep('wrong rig\n');
    await expect(discardUnread(database.records, sender, unreadFileId, 'not needed')).rejects.toMatchObject({
      code: 'duty.conflict',
    });
    await discardUnread(database.records, colleague, unreadFileId, 'a trial without specimen');
    await expect(discardUnread(database.records, colleague, unreadFileId, 'again')).rejects.toMatchObject({
      code: 'unread.closed',
    });
    const reader = database.records.read(sender.labId);
    expect(await unreadState(reader, unreadFileId)).toBe('discarded');
    expect(await waitingFiles(reader)).not.toContainEqual(expect.objectContaining({ id: unreadFileId }));
    expect(await unreadParts(reader, unreadFileId)).toHaveLength(1);
    expect(await keep('wrong rig\n')).toMatchObject({ unreadFileId, state: 'discarded' });
  });

  it('is read into a run, once, whoever else tries in the same moment', async () => {
    const { unreadFileId } = await keep('for the right specimen\n');
    const { specimens } = await aLot(database.records, sender, ['0417']);
    const reads = await Promise.allSettled(
      ['run-1', 'run-2', 'run-3'].map((key) =>
        database.records.change(colleague, 'run recorded', async (rows) => {
          const run = await rows.add(Run, { key, specimenId: specimens[0]?.id ?? '' });
          await closeAsRead(rows, unreadFileId, run.id);
        }),
      ),
    );
    expect(reads.filter(({ status }) => status === 'fulfilled')).toHaveLength(1);
    expect(await unreadState(database.records.read(sender.labId), unreadFileId)).toBe('read');
  });

  it('is not kept beyond the quota of its sender, which is told so', async () => {
    const lab = await aLab(database.records);
    const quota = { files: 2, bytes: 20 };
    const send = async (content: string) =>
      keepUnread(database.records, store, lab, await parts(content), refused, { quota });
    expect(await send('123456789\n')).toMatchObject({ stored: 'unread', number: 1 });
    const tooMany = await send('123456789-1\n');
    expect(tooMany).toMatchObject({ stored: false, refusal: { code: 'unread.quota' } });
    expect(await send('1234\n')).toMatchObject({ stored: 'unread', number: 2 });
    expect(await send('1\n')).toMatchObject({ stored: false });
  });
});
