import type { Reader } from '../change/reader.js';
import type { Rows } from '../change/rows.js';
import type { RawBytes } from '../entities/index.js';
import type { PreparedRaw } from './raw-source.js';

/** Where bytes lie that must never change. An implementation keeps them whole or not at all, with the change. */
export interface RawStore {
  /** Keeps bytes as part of a change. The same bytes are kept once: the row there is answered. */
  keep(rows: Rows, bytes: PreparedRaw): Promise<RawBytes>;

  /**
   * The bytes as they were kept, each piece checked against its digest before it is handed over, and the whole at its
   * end. Ends in `EvidenceDamaged` where they are not, so a reader hands nothing on before the last piece has come.
   */
  read(reader: Reader, rawId: string): AsyncIterable<Uint8Array>;
}

/** Kept bytes, or a kept row, are not what was kept. Somebody, or a failing disk, has altered them. */
export class EvidenceDamaged extends Error {
  override name = 'EvidenceDamaged';
}

/** All the bytes at once, for what must be in memory anyway. */
export async function readWhole(store: RawStore, reader: Reader, rawId: string): Promise<Buffer> {
  const chunks: Uint8Array[] = [];
  for await (const chunk of store.read(reader, rawId)) chunks.push(chunk);
  return Buffer.concat(chunks);
}
