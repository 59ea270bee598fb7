import { pipeline, Readable } from 'node:stream';
import { createGunzip } from 'node:zlib';
import type { Fault } from './line-bytes.js';
import { DAMAGED, GOES_ON, gzipFault, isGzip, lengthSaid, longerUnpacked } from './unpacked.js';

/** The bytes of a file as they come, in pieces of any length; none may be written to again once it was handed over. */
export type Pieces = AsyncIterable<Uint8Array> | Iterable<Uint8Array>;

/** What stands in the way of unpacking. */
export class PackedFault extends Error {
  constructor(readonly fault: Fault) {
    super(fault.said.sentence);
  }
}

const PIECE = 2 ** 18;

/**
 * The pieces of a file as they are, or what is inside them where they are one gzip file: unpacked as they come, checked
 * against its checksum and length at the end, and stopped beyond `most` bytes. Throws a `PackedFault`.
 */
export async function* unpackedPieces(pieces: Pieces, most: number): AsyncGenerator<Uint8Array, void> {
  const { first, rest } = await opened(pieces);
  if (!isGzip(first)) {
    if (first.length > 0) yield first;
    yield* rest;
    return;
  }

  let sent = 0;
  let tail = Buffer.alloc(0);
  async function* passed() {
    for await (const piece of prefixed(first, rest)) {
      sent += piece.length;
      tail = Buffer.concat([tail, piece.subarray(-4)]).subarray(-4);
      yield piece;
    }
  }
  const inside = createGunzip({ chunkSize: PIECE });
  // An end before its time, here or there, is thrown by the loop below; it must not be unheard here.
  pipeline(Readable.from(passed()), inside, () => undefined);

  let length = 0;
  try {
    for await (const piece of inside as AsyncIterable<Uint8Array>) {
      length += piece.length;
      if (length > most) throw new PackedFault(longerUnpacked(most));
      yield piece;
    }
  } catch (error) {
    if (isZlibError(error)) throw new PackedFault(gzipFault(DAMAGED));
    throw error;
  }
  if (inside.bytesWritten !== sent || lengthSaid(tail) !== length % 2 ** 32) throw new PackedFault(gzipFault(GOES_ON));
}

/** The first bytes, as many as tell gzip, and the rest. */
async function opened(pieces: Pieces): Promise<{ first: Uint8Array; rest: AsyncGenerator<Uint8Array, void> }> {
  const rest = (async function* () {
    yield* pieces;
  })();
  let first: Uint8Array = new Uint8Array(0);
  while (first.length < 2) {
    const next = await rest.next();
    if (next.done) break;
    first = first.length === 0 ? next.value : Buffer.concat([first, next.value]);
  }
  return { first, rest };
}

async function* prefixed(first: Uint8Array, rest: AsyncIterable<Uint8Array>): AsyncGenerator<Uint8Array, void> {
  yield first;
  yield* rest;
}

function isZlibError(error: unknown): boolean {
  return error instanceof Error && 'code' in error && String(error.code).startsWith('Z_');
}
