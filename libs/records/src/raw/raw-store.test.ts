import { randomBytes } from 'node:crypto';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { sha256 } from '@breakbook/evidence';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { queryAs, type TestDatabase, testDatabase } from '../../../../tests/database.js';
import { aLab } from '../../../../tests/lab-fixture.js';
import { tamper } from '../../../../tests/tamper.js';
import type { Actor } from '../change/rows.js';
import { Product, RawBytes } from '../entities/index.js';
import { PostgresRawStore } from './postgres-raw-store.js';
import { CHUNK_SIZE, prepareRaw, type RawSource, rawFromBytes, rawFromFile, regrouped } from './raw-source.js';
import { EvidenceDamaged, readWhole } from './raw-store.js';

describe('regrouped', () => {
  it.each([
    [[0], []],
    [[1], [1]],
    [[CHUNK_SIZE], [CHUNK_SIZE]],
    [
      [CHUNK_SIZE - 1, 1, 1],
      [CHUNK_SIZE, 1],
    ],
    [[3 * CHUNK_SIZE + 7], [CHUNK_SIZE, CHUNK_SIZE, CHUNK_SIZE, 7]],
    [
      [600_000, 600_000, 600_000],
      [CHUNK_SIZE, 1_800_000 - CHUNK_SIZE],
    ],
  ])('makes pieces of one MiB from pieces of %j bytes', async (sizes, expected) => {
    const bytes = randomBytes(sizes.reduce((sum, size) => sum + size, 0));
    async function* pieces() {
      let from = 0;
      for (const size of sizes) {
        yield bytes.subarray(from, from + size);
        from += size;
      }
    }
    const chunks: Uint8Array[] = [];
    for await (const chunk of regrouped(pieces())) chunks.push(chunk);
    expect(chunks.map(({ byteLength }) => byteLength)).toEqual(expected);
    expect(Buffer.concat(chunks).equals(bytes)).toBe(true);
  });
});

describe('PostgresRawStore', () => {
  const store = new PostgresRawStore();
  let database: TestDatabase;
  let by: Actor;
  beforeAll(async () => {
    database = await testDatabase();
    by = await aLab(database.records);
  });
  afterAll(() => database.close());

  const keep = async (source: RawSource) => {
    const bytes = await prepareRaw(source);
    return database.records.change(by, 'bytes kept', (rows) => store.keep(rows, bytes));
  };
  const read = (rawId: string) => readWhole(store, database.records.read(by.labId), rawId);

  it.each([0, 1, CHUNK_SIZE - 1, CHUNK_SIZE, CHUNK_SIZE + 1, 3 * CHUNK_SIZE + 17])(
    'gives back %i bytes as they came',
    async (size) => {
      const bytes = randomBytes(size);
      const raw = await keep(rawFromBytes(bytes));
      expect(raw).toMatchObject({ sha256: sha256(bytes), size });
      expect((await read(raw.id)).equals(bytes)).toBe(true);
    },
  );

  it('keeps a file from the disk without having it in memory whole', async () => {
    const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'breakbook-raw-'));
    const file = path.join(folder, 'burst-0417.csv');
    const bytes = randomBytes(2 * CHUNK_SIZE + 5);
    fs.writeFileSync(file, bytes);
    const raw = await keep(rawFromFile(file));
    expect((await read(raw.id)).equals(bytes)).toBe(true);
    fs.rmSync(folder, { recursive: true });
  });

  it('keeps the same bytes once, however often and however fast they come', async () => {
    const bytes = await prepareRaw(rawFromBytes(randomBytes(CHUNK_SIZE + 1)));
    const kept = await Promise.all(
      Array.from({ length: 8 }, (_, n) =>
        database.records.change(by, 'bytes kept', async (rows) => {
          await rows.add(Product, { key: `with-the-same-bytes-${n}` });
          return store.keep(rows, bytes);
        }),
      ),
    );
    expect(new Set(kept.map(({ id }) => id)).size).toBe(1);
    const [row] = await queryAs<{ n: number }>(
      database.owner,
      `select count(*)::int as n from raw_chunk where raw_id = '${kept[0]?.id}'`,
    );
    expect(row?.n).toBe(2);
  });

  it('keeps nothing when the change it belongs to fails, or the bytes change on their way', async () => {
    const before = await queryAs(database.owner, 'select count(*) from raw_chunk');
    const bytes = await prepareRaw(rawFromBytes(randomBytes(CHUNK_SIZE * 2)));
    await expect(
      database.records.change(by, 'bytes kept', async (rows) => {
        await store.keep(rows, bytes);
        throw new Error('the run was refused after all');
      }),
    ).rejects.toThrow('refused after all');

    let times = 0;
    const fickle: RawSource = {
      async *chunks() {
        times += 1;
        yield Buffer.from(`read for time ${times}`);
      },
    };
    await expect(keep(fickle)).rejects.toThrow('changed between');
    expect(await queryAs(database.owner, 'select count(*) from raw_chunk')).toEqual(before);
  });

  it('lets the service add nothing to bytes kept before', async () => {
    const raw = await keep(rawFromBytes(randomBytes(10)));
    await expect(
      queryAs(
        database.service,
        `insert into raw_chunk (lab_id, raw_id, position, bytes) values ('${by.labId}', '${raw.id}', 1, 'more')`,
      ),
    ).rejects.toMatchObject({ code: 'BB001' });
  });

  // One case for each way a kept file can be other than it was; none of them is ever handed over as good.
  // Positions are unique, so two pieces are exchanged by way of a third place.
  const EXCHANGED = [
    'update raw_chunk set position = 9 where raw_id = $1 and position = 0',
    'update raw_chunk set position = 0 where raw_id = $1 and position = 1',
    'update raw_chunk set position = 1 where raw_id = $1 and position = 9',
  ];
  it.each([
    [
      'one bit is turned',
      [
        'update raw_chunk set bytes = set_bit(bytes, 4711, 1 - get_bit(bytes, 4711)) where raw_id = $1 and position = 1',
      ],
    ],
    [
      'its last piece is one byte shorter',
      ['update raw_chunk set bytes = substr(bytes, 1, length(bytes) - 1) where raw_id = $1 and position = 2'],
    ],
    [
      'its last piece is one byte longer',
      ["update raw_chunk set bytes = bytes || '\\x00' where raw_id = $1 and position = 2"],
    ],
    ['a piece is missing', ['delete from raw_chunk where raw_id = $1 and position = 0']],
    ['a piece is moved', ['update raw_chunk set position = 3 where raw_id = $1 and position = 2']],
    [
      'there is a piece more',
      ['insert into raw_chunk select lab_id, raw_id, 3, bytes from raw_chunk where raw_id = $1 and position = 0'],
    ],
    ['two pieces are exchanged', EXCHANGED],
    ['its digest is another', ["update raw_bytes set sha256 = repeat('0', 64) where id = $1"]],
    [
      'two pieces are exchanged and their digests with them',
      [
        ...EXCHANGED,
        'update raw_bytes set chunk_sha256 = array[chunk_sha256[2], chunk_sha256[1], chunk_sha256[3]] where id = $1',
      ],
    ],
  ])('says so when %s', async (_, statements) => {
    const raw = await keep(rawFromBytes(randomBytes(2 * CHUNK_SIZE + 500)));
    for (const sql of statements) expect(await tamper(database.owner, sql, [raw.id]), sql).toBe(1);
    await expect(read(raw.id)).rejects.toBeInstanceOf(EvidenceDamaged);
  });

  it('hands over no piece that was altered, even of a file that is read piece by piece', async () => {
    const raw = await keep(rawFromBytes(randomBytes(3 * CHUNK_SIZE)));
    await tamper(database.owner, "update raw_chunk set bytes = '\\x00' where raw_id = $1 and position = 1", [raw.id]);
    const seen: string[] = [];
    await expect(
      (async () => {
        for await (const chunk of store.read(database.records.read(by.labId), raw.id)) seen.push(sha256(chunk));
      })(),
    ).rejects.toThrow('piece 2 is not what was kept');
    expect(seen).toEqual([raw.chunkSha256[0]]);
  });

  it('does not know the bytes of another lab', async () => {
    const raw = await keep(rawFromBytes(randomBytes(10)));
    const other = await aLab(database.records);
    await expect(readWhole(store, database.records.read(other.labId), raw.id)).rejects.toMatchObject({
      code: 'request.not-found',
    });
    expect(await database.records.read(other.labId).find(RawBytes, {})).toEqual([]);
  });
});
