import { createHash } from 'node:crypto';
import type { Reader } from '@breakbook/records';

/** Packages can be fetched for so long after they were made; then they are made again. */
const KEPT_FOR = '1 day';
const BLOCK = 1024 * 1024;

/** Keeps the bytes of a package, and says what they are; those of older ones are removed. */
export async function keepBlocks(
  { manager, labId }: Reader,
  packageId: string,
  bytes: AsyncIterable<Uint8Array>,
): Promise<{ size: number; sha256: string }> {
  await manager.query(`delete from lot_package_block where lab_id = $1 and at < now() - interval '${KEPT_FOR}'`, [
    labId,
  ]);
  const hash = createHash('sha256');
  let [size, position] = [0, 0];
  const keep = async (block: Uint8Array) => {
    hash.update(block);
    size += block.byteLength;
    await manager.query('insert into lot_package_block (lab_id, package_id, position, bytes) values ($1, $2, $3, $4)', [
      labId,
      packageId,
      position++,
      block,
    ]);
  };
  let pieces: Uint8Array[] = [];
  let waiting = 0;
  for await (const piece of bytes) {
    pieces.push(piece);
    waiting += piece.byteLength;
    if (waiting < BLOCK) continue;
    await keep(Buffer.concat(pieces));
    [pieces, waiting] = [[], 0];
  }
  if (waiting > 0) await keep(Buffer.concat(pieces));
  return { size, sha256: hash.digest('hex') };
}

/** Are the bytes of a package still there, all of them? */
export async function hasBlocks({ manager, labId }: Reader, packageId: string, size: number): Promise<boolean> {
  const [found] = await manager.query<{ size: string }[]>(
    'select coalesce(sum(length(bytes)), 0) as size from lot_package_block where lab_id = $1 and package_id = $2',
    [labId, packageId],
  );
  return Number(found?.size) === size;
}

/** The bytes of a package, a block at a time. */
export async function* blocksOf({ manager, labId }: Reader, packageId: string): AsyncGenerator<Buffer> {
  for (let position = 0; ; position++) {
    const [block] = await manager.query<{ bytes: Buffer }[]>(
      'select bytes from lot_package_block where lab_id = $1 and package_id = $2 and position = $3',
      [labId, packageId, position],
    );
    if (!block) return;
    yield block.bytes;
  }
}
