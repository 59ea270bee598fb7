import { createHash } from 'node:crypto';
import { readingBounds } from './file-bounds.js';
import type { HeaderExpectation } from './header.js';
import { Layout1Reader, type ReadOptions, type RunTable } from './layout-1.js';
import { ProblemList } from './problem-list.js';
import type { OnBlock } from './rows.js';
import { PackedFault, type Pieces, unpackedPieces } from './unpacked-pieces.js';

/** A run file that was read in pieces: its rows were handed on, and none is held. */
export interface PiecesRead extends Omit<RunTable, 'values' | 'digests'> {
  /** Of the bytes as they were sent. */
  bytes: number;
  sha256: string;
}

export interface PiecesOptions extends Omit<ReadOptions, 'onProgress' | 'keep'> {
  onBlock: OnBlock;
  /** Called now and then with the bytes that came so far. */
  onProgress?: (bytes: number) => void;
}

/**
 * Reads a run file of any length in the same memory: its bytes come in pieces, are unpacked as they come where the
 * layout says that they may be packed, and its rows are handed on block by block. The same numbers, flags and refusals
 * as of the whole file at once; what was handed on counts for nothing where it is refused at last.
 */
export async function readPieces(
  name: string,
  pieces: Pieces,
  expectation: HeaderExpectation,
  { onProgress, ...options }: PiecesOptions,
): Promise<PiecesRead> {
  const digest = createHash('sha256');
  let bytes = 0;
  async function* counted() {
    for await (const piece of pieces) {
      digest.update(piece);
      bytes += piece.length;
      onProgress?.(bytes);
      yield piece;
    }
  }

  const { gzipUpTo } = expectation.dialect;
  const most = gzipUpTo === undefined ? undefined : Math.min(gzipUpTo, readingBounds(options.bounds).bytes);
  const reader = new Layout1Reader(name, expectation, options);
  try {
    for await (const piece of most === undefined ? counted() : unpackedPieces(counted(), most)) reader.take(piece);
  } catch (error) {
    if (!(error instanceof PackedFault)) throw error;
    new ProblemList(name).refuse(error.fault.code, {}, error.fault.said);
  }
  const { values: _values, digests: _digests, ...table } = reader.end();
  return { ...table, bytes, sha256: digest.digest('hex') };
}
