import { spawn, spawnSync } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';
import { DatabaseUnusable } from './database-unusable.js';
import { isAlive, seeProcess } from './processes.js';
import type { RunAs } from './run-as.js';

/** Data folders of one major version are not read by another, so it stands in the folder's name. */
const MAJOR = 18;

/** Where things lie in a data folder. */
export interface ClusterPlace {
  /** PostgreSQL's own data folder. */
  cluster: string;
  log: string;
  socket: string;
  binaries: string;
}

/** The folder of the cluster within a data folder of ours; refuses data of another major version. */
export function clusterFolder(dataFolder: string): string {
  const wanted = `postgres-${MAJOR}`;
  const others = fs.readdirSync(dataFolder).filter((name) => /^postgres-\d+$/.test(name) && name !== wanted);
  if (others.length > 0 && !fs.existsSync(path.join(dataFolder, wanted))) {
    throw new DatabaseUnusable(
      `${dataFolder} holds ${others.join(', ')}, and this Breakbook brings PostgreSQL ${MAJOR}, which cannot read it. ` +
        'Start the release of Breakbook that made it, take a back-up there, and restore it here.',
    );
  }
  return path.join(dataFolder, wanted);
}

const ENVIRONMENT = { PATH: process.env.PATH, LC_ALL: 'C', TZ: 'UTC' };

/**
 * Makes the cluster if there is none. It is made beside its place and moved there when it is whole, so that a first
 * start killed half way leaves nothing that looks like a cluster.
 */
export function makeCluster(place: ClusterPlace, as: RunAs, unsafeFast: boolean): void {
  if (fs.existsSync(place.cluster)) return;
  const making = `${place.cluster}.making`;
  fs.rmSync(making, { recursive: true, force: true });
  fs.mkdirSync(making, { mode: 0o700 });
  as.hand(making);
  const [program, ...prefix] = [...as.prefix, path.join(place.binaries, 'bin', 'initdb')];
  const answer = spawnSync(
    program as string,
    [
      ...prefix,
      ...['-D', making, '-U', 'breakbook', '--auth=trust', '--encoding=UTF8', '--data-checksums'],
      // Sorted by code point wherever it was made; where order matters to people, a query says its collation.
      ...['--locale=C', '--locale-provider=builtin', '--builtin-locale=C.UTF-8'],
      ...(unsafeFast ? ['--no-sync'] : []),
    ],
    { ...as.identity, env: ENVIRONMENT, cwd: '/', encoding: 'utf8' },
  );
  if (answer.status !== 0) {
    throw new DatabaseUnusable(`A database could not be made in ${making}: ${answer.stderr || answer.error?.message}`);
  }
  fs.renameSync(making, place.cluster);
}

/** The server that already serves this cluster, left over by a process that was killed. */
export async function runningServer(place: ClusterPlace): Promise<number | undefined> {
  const pidFile = path.join(place.cluster, 'postmaster.pid');
  const pid = firstLineNumber(pidFile);
  if (pid !== undefined && serves(pid, place.cluster)) return pid;
  // The number of a server long gone now belongs to another program, which PostgreSQL would take for a running server.
  // A number that belongs to nobody PostgreSQL clears away itself, after making sure that no child of its lives on.
  if (pid !== undefined && isAlive(pid)) fs.rmSync(pidFile);

  // A server whose folder was deleted under it holds the socket still. What it served is gone.
  const orphan = firstLineNumber(path.join(place.socket, '.s.PGSQL.5432.lock'));
  if (orphan !== undefined && serves(orphan, place.cluster)) await stopServer(orphan, 'SIGQUIT');
  return undefined;
}

function firstLineNumber(file: string): number | undefined {
  return fs.existsSync(file) ? Number(fs.readFileSync(file, 'utf8').split('\n')[0]) : undefined;
}

function serves(pid: number, cluster: string): boolean {
  return seeProcess(pid)?.arguments.includes(`-D ${cluster} `) ?? false;
}

/** Starts the server; its messages go to the log, whose last lines explain a server that stops. */
export function startServer(place: ClusterPlace, as: RunAs, unsafeFast: boolean): number {
  const safety = unsafeFast ? 'off' : 'on';
  const settings = [
    'listen_addresses=',
    `unix_socket_directories="${place.socket.replaceAll('"', '""')}"`,
    'unix_socket_permissions=0700',
    // On the command line they outrank the cluster's own configuration.
    ...['fsync', 'full_page_writes', 'synchronous_commit'].map((name) => `${name}=${safety}`),
  ];
  const [program, ...prefix] = [...as.prefix, path.join(place.binaries, 'bin', 'postgres')];
  const log = fs.openSync(place.log, 'w', 0o600);
  // Detached, so that Ctrl-C at the terminal reaches the service first, which then stops the server in good order.
  const child = spawn(
    program as string,
    [...prefix, '-D', place.cluster, ...settings.flatMap((setting) => ['-c', setting])],
    { ...as.identity, env: ENVIRONMENT, cwd: '/', stdio: ['ignore', log, log], detached: true },
  );
  fs.closeSync(log);
  child.unref();
  child.on('error', () => {}); // No pid then; the caller says so.
  if (child.pid === undefined) throw new DatabaseUnusable(`PostgreSQL could not be started from ${place.binaries}.`);
  return child.pid;
}

/** Stops the server in good order: clients are cut off, open transactions rolled back, everything written. */
export async function stopServer(pid: number, signal: 'SIGINT' | 'SIGQUIT' = 'SIGINT'): Promise<void> {
  const server = seeProcess(pid);
  if (!server) return;
  process.kill(pid, signal);
  while (seeProcess(pid)?.started === server.started) await new Promise((resolve) => setTimeout(resolve, 10));
}

export function lastLogLines({ log }: ClusterPlace): string {
  return fs.existsSync(log) ? fs.readFileSync(log, 'utf8').split('\n').slice(-12).join('\n').trim() : '';
}
