import { createHash, type Hash } from 'node:crypto';
import type { Column } from './header.js';

/** Rows of a file that are held: whole columns that somebody reads, and of the others their digest alone. */
export class KeptColumns {
  private rows = 0;
  /** By their place in the file, from 1. */
  private readonly kept = new Map<number, Float64Array>();
  private readonly digests = new Map<number, Hash>();

  constructor(columns: readonly Column[], keep: (column: Column) => boolean) {
    for (const one of columns)
      if (keep(one)) this.kept.set(one.column, new Float64Array(FIRST_ROOM));
      else this.digests.set(one.column, createHash('sha256'));
  }

  /** Takes the next rows, one array per column of the file. */
  take(block: readonly Float64Array[]): void {
    const length = block[0]?.length ?? 0;
    for (const [column, held] of this.kept) {
      const room = this.rows + length <= held.length ? held : enlarged(held);
      room.set(block[column - 1] as Float64Array, this.rows);
      this.kept.set(column, room);
    }
    for (const [column, digest] of this.digests) {
      const { buffer, byteOffset, byteLength } = block[column - 1] as Float64Array;
      digest.update(new Uint8Array(buffer, byteOffset, byteLength));
    }
    this.rows += length;
  }

  /** Every row of a column that is held; none of another. */
  values(column: number): Float64Array {
    return this.kept.get(column)?.subarray(0, this.rows) ?? new Float64Array(0);
  }

  /** As `columnDigest` of all its rows, for a column that is not held. */
  digest(column: number): string | undefined {
    return this.digests.get(column)?.copy().digest('hex');
  }
}

/** Twice as large as any block, and as itself before. */
const FIRST_ROOM = 8192;

function enlarged(held: Float64Array): Float64Array {
  const larger = new Float64Array(2 * held.length);
  larger.set(held);
  return larger;
}
