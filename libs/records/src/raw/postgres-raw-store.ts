import { createHash } from 'node:crypto';
import { sha256 } from '@breakbook/evidence';
import type { Reader } from '../change/reader.js';
import type { Rows } from '../change/rows.js';
import { RawBytes } from '../entities/index.js';
import type { PreparedRaw } from './raw-source.js';
import { EvidenceDamaged, type RawStore } from './raw-store.js';

/** Keeps bytes in the database, in rows of 1 MiB, in the transaction of what they belong to. */
export class PostgresRawStore implements RawStore {
  async keep(rows: Rows, bytes: PreparedRaw): Promise<RawBytes> {
    await rows.lock(RawBytes, bytes.sha256);
    const kept = await rows.maybe(RawBytes, { sha256: bytes.sha256 });
    if (kept) return kept;

    const { sha256: whole, size, chunkSha256 } = bytes;
    const raw = await rows.add(RawBytes, { sha256: whole, size, chunkSha256 });
    let position = 0;
    for await (const chunk of bytes.chunks()) {
      if (sha256(chunk) !== chunkSha256[position]) throw changedMeanwhile();
      await rows.manager.query('insert into raw_chunk (lab_id, raw_id, position, bytes) values ($1, $2, $3, $4)', [
        rows.labId,
        raw.id,
        position,
        chunk,
      ]);
      position += 1;
    }
    if (position !== chunkSha256.length) throw changedMeanwhile();
    return raw;
  }

  async *read(reader: Reader, rawId: string): AsyncGenerator<Uint8Array> {
    const raw = await reader.one(RawBytes, rawId);
    await this.#requireChunkCount(reader, raw);
    const whole = createHash('sha256');
    for (const [position, expected] of raw.chunkSha256.entries()) {
      const [row] = await reader.manager.query<{ bytes: Buffer }[]>(
        'select bytes from raw_chunk where lab_id = $1 and raw_id = $2 and position = $3',
        [reader.labId, rawId, position],
      );
      if (row === undefined) throw damaged(raw, `piece ${position + 1} is missing`);
      if (sha256(row.bytes) !== expected) throw damaged(raw, `piece ${position + 1} is not what was kept`);
      whole.update(row.bytes);
      yield row.bytes;
    }
    // The pieces' digests stand in the same row; whoever altered both of them forgot this one.
    if (whole.digest('hex') !== raw.sha256) throw damaged(raw, 'its pieces do not make up the whole');
  }

  async #requireChunkCount(reader: Reader, raw: RawBytes): Promise<void> {
    const [row] = await reader.manager.query<{ count: number }[]>(
      'select count(*)::int as count from raw_chunk where lab_id = $1 and raw_id = $2',
      [reader.labId, raw.id],
    );
    if (row?.count === raw.chunkSha256.length) return;
    throw damaged(raw, `it has ${row?.count} pieces, and ${raw.chunkSha256.length} were kept`);
  }
}

function damaged(raw: RawBytes, found: string): EvidenceDamaged {
  return new EvidenceDamaged(
    `The bytes of SHA-256 ${raw.sha256} are damaged: ${found}. Restore them from a back-up; nothing that rests on ` +
      'them is to be relied on until then.',
  );
}

function changedMeanwhile(): Error {
  return new Error('The bytes changed between the time their digest was taken and the time they were to be kept.');
}
