import fs from 'node:fs/promises';
import os from 'node:os';
import path from 'node:path';

/** A folder of this process; its number tells a later process that it is left over. */
const NAME = /^breakbook-spool-(\d+)-/;

/**
 * Hands `work` a folder of its own for files that are too long for memory, and removes it whichever way the work ends.
 * What lies in it is nobody's record: a run is kept in the database or not at all.
 */
export async function inSpool<T>(work: (folder: string) => Promise<T>): Promise<T> {
  const folder = await fs.mkdtemp(path.join(os.tmpdir(), `breakbook-spool-${process.pid}-`));
  try {
    return await work(folder);
  } finally {
    await fs.rm(folder, { recursive: true, force: true });
  }
}

/** Removes what processes that were killed have left behind. */
export async function sweepSpools(): Promise<void> {
  for (const name of await fs.readdir(os.tmpdir())) {
    const pid = Number(NAME.exec(name)?.[1]);
    if (!Number.isInteger(pid) || isAlive(pid)) continue;
    // Another user's is that user's to sweep.
    await fs.rm(path.join(os.tmpdir(), name), { recursive: true, force: true }).catch(() => {});
  }
}

function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
}
