import { createHash } from 'node:crypto';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { DatabaseUnusable } from './database-unusable.js';

/** A socket's path must stay under 104 bytes (sun_path on macOS; 108 on Linux), and PostgreSQL adds its own name. */
const LONGEST_FOLDER = 104 - '/.s.PGSQL.5432.lock'.length;

/**
 * The folder in which one cluster's socket lives: the same for the same cluster, so that a server left over by a
 * killed process is found again, and entered by its owner only, which is why the socket asks for no password.
 */
export function socketFolder(cluster: string): string {
  const name = `breakbook-pg-${createHash('sha256').update(cluster).digest('hex').slice(0, 12)}`;
  const folder = [os.tmpdir(), '/tmp'].map((place) => path.join(place, name)).find(fits);
  if (folder === undefined) throw new DatabaseUnusable(`The temporary folder ${os.tmpdir()} has too long a name.`);
  fs.mkdirSync(folder, { recursive: true, mode: 0o700 });
  return folder;
}

function fits(folder: string): boolean {
  return Buffer.byteLength(folder) <= LONGEST_FOLDER;
}

/** The name of the folder can be foretold, so somebody else may have made it first, to sit between us and the server. */
export function refuseForeignFolder(folder: string, owners: (number | undefined)[]): void {
  const { uid, mode } = fs.lstatSync(folder);
  if (fs.lstatSync(folder).isDirectory() && owners.includes(uid) && (mode & 0o077) === 0) return;
  throw new DatabaseUnusable(
    `The folder ${folder} for the database's socket is not ours alone (owner ${uid}, mode ${(mode & 0o777).toString(8)}). ` +
      'Remove it, or set TMPDIR to a folder that only you can write.',
  );
}
