import fs from 'node:fs';
import path from 'node:path';
import pg from 'pg';
import {
  type ClusterPlace,
  clusterFolder,
  lastLogLines,
  makeCluster,
  runningServer,
  startServer,
  stopServer,
} from './cluster.js';
import { DatabaseUnusable } from './database-unusable.js';
import { requireGuarantees } from './guarantees.js';
import { lockDataFolder } from './launcher-lock.js';
import { postgresBinaries } from './postgres-binaries.js';
import { seeProcess } from './processes.js';
import { runAs } from './run-as.js';
import { makeSocketFolder, socketFolder } from './socket-folder.js';

export interface EmbeddedOptions {
  /** Made if it is not there. */
  database?: string;
  /** Nothing is waited for until it is on the disk. For tests only: a killed machine loses everything. */
  unsafeFast?: boolean;
}

/** A PostgreSQL server of our own, reached through a socket that only its owner can open. */
export interface Embedded {
  /** As the owner of everything in it. */
  connection: { host: string; port: number; user: string; database: string };
  pid: number;
  /** Found running, left over by a process that was killed. */
  adopted: boolean;
  stop(): Promise<void>;
}

/** Recovery after a crash reads the log since the last checkpoint, five minutes of work at most. */
const LONGEST_START = 300_000;
/** A child looks for its server at every wait it makes; one that waits for a slow disk takes longer. */
const LONGEST_WAIT_FOR_CHILDREN = 60_000;

/**
 * Starts PostgreSQL on a data folder of its own, makes it at the first start, and takes it over where it still runs.
 * After a kill -9 of this process, of the server, or of both, the next start brings back all that was committed.
 */
export async function startEmbedded(dataFolder: string, options: EmbeddedOptions = {}): Promise<Embedded> {
  const { database = 'breakbook', unsafeFast = false } = options;
  const folder = path.resolve(dataFolder);
  fs.mkdirSync(folder, { recursive: true });
  const lock = lockDataFolder(folder);
  try {
    const { place, pid, adopted, connection } = await preparedServer(folder, database, unsafeFast);
    const stop = async () => {
      await stopServer(pid);
      fs.rmSync(place.socket, { recursive: true, force: true });
      lock.release();
    };
    return { connection, pid, adopted, stop };
  } catch (error) {
    lock.release();
    throw error;
  }
}

/** Where a killed server's children have not seen its end yet, a new one ends at once; it is started until they have. */
async function preparedServer(folder: string, database: string, unsafeFast: boolean) {
  const deadline = Date.now() + LONGEST_WAIT_FOR_CHILDREN;
  for (;;) {
    const { place, pid, adopted } = await serverOn(folder, unsafeFast);
    const connection = { host: place.socket, port: 5432, user: 'breakbook', database };
    try {
      await prepareDatabase(place, pid, connection, unsafeFast);
      return { place, pid, adopted, connection };
    } catch (error) {
      if (!adopted) await stopServer(pid);
      if (!metChildren(place, pid) || Date.now() > deadline) throw error;
    }
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
}

/** The words in which PostgreSQL says so, in src/backend/port/sysv_shmem.c (from memory, and as its log has them). */
function metChildren(place: ClusterPlace, pid: number): boolean {
  return lastLogLines(place).includes(`[${pid}] FATAL:  pre-existing shared memory block`);
}

async function serverOn(
  folder: string,
  unsafeFast: boolean,
): Promise<{ place: ClusterPlace; pid: number; adopted: boolean }> {
  const binaries = postgresBinaries();
  const cluster = clusterFolder(folder);
  const socket = socketFolder(cluster);
  const place = { cluster, socket, binaries, log: path.join(folder, 'postgres.log') };
  const as = runAs(cluster, [binaries, cluster, socket]);
  makeSocketFolder(socket, as);
  makeCluster(place, as, unsafeFast);
  const running = await runningServer(place);
  return { place, pid: running ?? startServer(place, as, unsafeFast), adopted: running !== undefined };
}

async function prepareDatabase(
  place: ClusterPlace,
  pid: number,
  connection: Embedded['connection'],
  unsafeFast: boolean,
): Promise<void> {
  const client = await connectWhenReady(place, pid, { ...connection, database: 'postgres' });
  try {
    if (!unsafeFast) await requireGuarantees(client, `The PostgreSQL server on ${place.cluster}`);
    const { rowCount } = await client.query('select from pg_database where datname = $1', [connection.database]);
    if (rowCount === 0) await client.query(`create database ${client.escapeIdentifier(connection.database)}`);
  } finally {
    await client.end();
  }
}

async function connectWhenReady(place: ClusterPlace, pid: number, connection: pg.ClientConfig): Promise<pg.Client> {
  const deadline = Date.now() + LONGEST_START;
  for (;;) {
    const client = new pg.Client(connection);
    client.on('error', () => {}); // A connection cut off shows in the next query; unheard it would end the process.
    try {
      await client.connect();
      return client;
    } catch (error) {
      await client.end().catch(() => {});
      if (!seeProcess(pid)) {
        throw new DatabaseUnusable(
          `PostgreSQL stopped while starting. Its last words (${place.log}):\n${lastLogLines(place)}`,
        );
      }
      if (Date.now() > deadline) throw error;
    }
    await new Promise((resolve) => setTimeout(resolve, 25));
  }
}
