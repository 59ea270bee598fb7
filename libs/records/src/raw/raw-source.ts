import fs from 'node:fs';
import { type Digest, sha256, sha256OfChunks } from '@breakbook/evidence';

/** Bytes are kept, and their digests taken, in pieces of 1 MiB; the last is what is left. */
export const CHUNK_SIZE = 1024 * 1024;

/** Bytes that can be gone through more than once, without all of them in memory at a time. */
export interface RawSource {
  chunks(): AsyncIterable<Uint8Array>;
}

/** Bytes ready to be kept: their digests are known before any transaction is opened. */
export interface PreparedRaw extends RawSource {
  sha256: Digest;
  size: number;
  chunkSha256: Digest[];
}

export function rawFromBytes(bytes: Uint8Array): RawSource {
  return {
    async *chunks() {
      yield bytes;
    },
  };
}

export function rawFromFile(path: string): RawSource {
  return { chunks: () => fs.createReadStream(path, { highWaterMark: CHUNK_SIZE }) };
}

export async function prepareRaw(source: RawSource): Promise<PreparedRaw> {
  const chunkSha256: Digest[] = [];
  async function* seen() {
    for await (const chunk of regrouped(source.chunks())) {
      chunkSha256.push(sha256(chunk));
      yield chunk;
    }
  }
  const { digest, size } = await sha256OfChunks(seen());
  return { sha256: digest, size, chunkSha256, chunks: () => regrouped(source.chunks()) };
}

/** The same bytes in pieces of `CHUNK_SIZE`. */
export async function* regrouped(chunks: AsyncIterable<Uint8Array>): AsyncGenerator<Uint8Array> {
  let waiting: Uint8Array[] = [];
  let size = 0;
  for await (let chunk of chunks) {
    while (size + chunk.byteLength >= CHUNK_SIZE) {
      const wanted = CHUNK_SIZE - size;
      yield Buffer.concat([...waiting, chunk.subarray(0, wanted)]);
      chunk = chunk.subarray(wanted);
      waiting = [];
      size = 0;
    }
    if (chunk.byteLength > 0) waiting.push(chunk);
    size += chunk.byteLength;
  }
  if (size > 0) yield Buffer.concat(waiting);
}
