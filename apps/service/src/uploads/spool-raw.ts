import fs from 'node:fs';
import path from 'node:path';
import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import type { RawStore, Reader } from '@breakbook/records';

/** Writes kept bytes to a folder, each piece checked on its way, so that a thread can read them from there. */
export async function spoolRaw<T extends { name: string; rawId: string }>(
  { store, reader, folder }: { store: RawStore; reader: Reader; folder: string },
  files: readonly T[],
): Promise<(T & { path: string })[]> {
  const spooled: (T & { path: string })[] = [];
  for (const file of files) {
    // The same bytes may stand in two places; they are written once.
    const at = path.join(folder, file.rawId);
    if (!fs.existsSync(at))
      await pipeline(Readable.from(store.read(reader, file.rawId)), fs.createWriteStream(at, { mode: 0o600 }));
    spooled.push({ ...file, path: at });
  }
  return spooled;
}
