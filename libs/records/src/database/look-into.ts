import fs from 'node:fs';
import path from 'node:path';
import type pg from 'pg';
import { clusterFolder } from './cluster.js';
import { DatabaseUnusable } from './database-unusable.js';
import { startEmbedded } from './embedded.js';
import { asServiceRole } from './external.js';
import { holderOf } from './launcher-lock.js';
import { SERVICE_ROLE } from './service-role.js';
import { socketFolder } from './socket-folder.js';

/**
 * Reaches a lab's database to look at it, as the role that can change nothing that was kept: an external one, the
 * embedded one that a running Breakbook looks after, or else the embedded one started for as long as it is looked at.
 * Nothing is migrated.
 */
export async function lookInto({
  url,
  dataFolder,
}: {
  url?: string | undefined;
  dataFolder: string;
}): Promise<{ connection: pg.ClientConfig; close(): Promise<void> }> {
  if (url !== undefined && url !== '') return { connection: asServiceRole(url), close: async () => {} };
  const folder = path.resolve(dataFolder);
  if (!fs.existsSync(folder)) throw new DatabaseUnusable(`There is no data folder ${folder}.`);
  const cluster = clusterFolder(folder);
  if (!fs.existsSync(cluster)) throw new DatabaseUnusable(`${folder} holds no database of Breakbook.`);
  if (holderOf(folder)) {
    const connection = { host: socketFolder(cluster), port: 5432, user: SERVICE_ROLE, database: 'breakbook' };
    return { connection, close: async () => {} };
  }
  const { connection, stop } = await startEmbedded(folder);
  return { connection: { ...connection, user: SERVICE_ROLE }, close: stop };
}
