import { createHash } from 'node:crypto';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { DatabaseUnusable } from './database-unusable.js';
import type { RunAs } from './run-as.js';

/** A socket's path must stay under 104 bytes (sun_path on macOS; 108 on Linux), and PostgreSQL adds its own name. */
const LONGEST_FOLDER = 104 - '/.s.PGSQL.5432.lock'.length;

/**
 * The folder in which one cluster's socket lives: the same for the same cluster, so that a server left over by a
 * killed process is found again.
 */
export function socketFolder(cluster: string): string {
  const name = `breakbook-pg-${createHash('sha256').update(cluster).digest('hex').slice(0, 12)}`;
  const fitting = [os.tmpdir(), '/tmp']
    .map((place) => path.join(place, name))
    .find((folder) => Buffer.byteLength(folder) <= LONGEST_FOLDER);
  if (fitting !== undefined) return fitting;
  throw new DatabaseUnusable(`The temporary folder ${os.tmpdir()} has too long a name. Set TMPDIR to a shorter one.`);
}

/**
 * Makes the folder, entered by the server's user only, which is why the socket asks for no password. Its name can be
 * foretold, so somebody else may have made it first, to sit between us and the server: that one is refused.
 */
export function makeSocketFolder(folder: string, as: RunAs): void {
  const owner = as.identity.uid ?? process.getuid?.();
  // Left over from when the server ran as another user, which root may clear away.
  if (process.getuid?.() === 0 && fs.existsSync(folder) && fs.lstatSync(folder).uid !== owner) {
    fs.rmSync(folder, { recursive: true });
  }
  if (!fs.existsSync(folder)) {
    fs.mkdirSync(folder, { mode: 0o700 });
    as.hand(folder);
  }
  const found = fs.lstatSync(folder);
  if (found.isDirectory() && found.uid === owner && (found.mode & 0o077) === 0) return;
  throw new DatabaseUnusable(
    `The folder ${folder} for the database's socket is not ours alone (owner ${found.uid}, mode ` +
      `${(found.mode & 0o777).toString(8)}). Remove it, or set TMPDIR to a folder that only you can write.`,
  );
}
