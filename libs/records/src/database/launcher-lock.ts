import fs from 'node:fs';
import path from 'node:path';
import { DatabaseUnusable } from './database-unusable.js';
import { type ProcessSeen, seeProcess } from './processes.js';

/**
 * Lets one process at a time look after a data folder. A process that was killed leaves its lock behind; it is known
 * by number and start, so that its lock is taken over by whoever comes next, without a hand.
 */
export function lockDataFolder(dataFolder: string): { release(): void } {
  const file = lockFile(dataFolder);
  const ourselves = JSON.stringify(seeProcess(process.pid));
  for (let attempt = 0; attempt < 3; attempt += 1) {
    try {
      fs.writeFileSync(file, ourselves, { flag: 'wx', mode: 0o600 });
      return { release: () => release(file, ourselves) };
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error;
    }
    const holder = holderOf(dataFolder);
    if (holder) {
      throw new DatabaseUnusable(
        `The data folder ${dataFolder} is in use by process ${holder.pid} (${holder.arguments}). ` +
          'Stop that one first, or give this one a data folder of its own.',
      );
    }
    fs.rmSync(file, { force: true });
  }
  throw new DatabaseUnusable(`The data folder ${dataFolder} is being taken by another process just now. Try again.`);
}

/** The process that looks after a data folder now, if one does. */
export function holderOf(dataFolder: string): ProcessSeen | undefined {
  const holder = readHolder(lockFile(dataFolder));
  return holder && seeProcess(holder.pid)?.started === holder.started ? holder : undefined;
}

function lockFile(dataFolder: string): string {
  return path.join(dataFolder, 'launcher.json');
}

function readHolder(file: string): ProcessSeen | undefined {
  try {
    return JSON.parse(fs.readFileSync(file, 'utf8')) as ProcessSeen;
  } catch {
    return undefined; // Released meanwhile, or cut short by a kill.
  }
}

function release(file: string, ourselves: string): void {
  if (fs.existsSync(file) && fs.readFileSync(file, 'utf8') === ourselves) fs.rmSync(file);
}
