import { type ChainHead, linkEntry, parseEntry } from '@breakbook/evidence';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { queryAs, type TestDatabase, testDatabase } from '../../../../tests/database.js';
import { aLab } from '../../../../tests/lab-fixture.js';
import { LedgerEntry, Product } from '../entities/index.js';
import { newId } from './rows.js';

describe('an entry put together by the database', () => {
  let database: TestDatabase;
  beforeAll(async () => {
    database = await testDatabase();
  });
  afterAll(() => database.close());

  // linkEntry is checked against sha256sum and the example of docs/formats.md.
  it('is byte by byte the one that linkEntry writes, whatever was said', async () => {
    const by = await aLab(database.records);
    const reasons = [
      undefined,
      'the rim\'s bead \\ seat, "as new"; commit; select append_entry(\'',
      'two lines\nand a tab\t, U+0000 as \\u0000, U+001F \u001f, U+2028 \u2028',
      "Dunlin 42 \u{1f6b2} für die Überprüfung, $1 $$ %s E'\\'",
      `,"previous":"${'0'.repeat(64)}","sequence":1}\n`,
    ];
    for (const [n, reason] of reasons.entries()) {
      await database.records.change(by, reason ?? 'product defined', reason, async (rows) => {
        await rows.add(Product, { key: `dunlin-${n}` });
        await rows.add(Product, { key: `dunlin-${n}-again` });
      });
    }

    const kept = await database.dataSource.manager.find(LedgerEntry, {
      where: { labId: by.labId },
      order: { sequence: 'asc' },
    });
    expect(kept.slice(1).map(({ reason }) => reason)).toEqual(reasons.map((reason) => reason ?? null));
    let head: ChainHead | undefined;
    for (const { text, hash, sequence } of kept) {
      const { sequence: _, previous: __, ...content } = parseEntry(text);
      const linked = linkEntry(head, content);
      expect({ text, hash, sequence }).toEqual({ text: linked.text, hash: linked.hash, sequence: linked.sequence });
      head = linked;
    }
    expect(head?.sequence).toBe(1 + reasons.length);
  });

  it('is refused where its text says other than it is asked to write', async () => {
    const by = await aLab(database.records);
    const append = (action: string) =>
      queryAs(
        database.service,
        `select append_entry('${by.labId}', '${newId()}', now(), '${by.personId}', '${action}', null,
          E'breakbook ledger entry 1\\n{"action":"run recorded","previous":"', '","sequence":', E'}\\n')`,
      );
    await expect(append('run recorded')).rejects.toMatchObject({ code: 'BB004' });
  });
});
