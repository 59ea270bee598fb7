import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';
import { DatabaseUnusable } from './database-unusable.js';

/** How PostgreSQL's programs are started, and who owns the files they use. */
export interface RunAs {
  /** Put before the program: a user namespace, or nothing. */
  prefix: string[];
  /** For child_process: another user, or nothing. */
  identity: { uid?: number; gid?: number };
  /** Gives a folder made by us to whoever runs the server. */
  hand(folder: string): void;
}

const OURSELVES: RunAs = { prefix: [], identity: {}, hand: () => {} };

/**
 * PostgreSQL refuses to run as uid 0. Started by root, it runs as the owner of the cluster; a new cluster goes to the
 * user postgres or nobody; and where that user cannot reach the files (a checkout in root's home, say), the server
 * runs in a user namespace in which root's files seem to be its own.
 */
export function runAs(cluster: string, folders: string[]): RunAs {
  if (process.getuid?.() !== 0) return OURSELVES;
  const owner = fs.existsSync(cluster) ? fs.statSync(cluster) : undefined;
  if (owner && owner.uid !== 0) return asUser(owner);

  const user = unprivilegedUser();
  if (!owner && folders.every((folder) => canReach(user, folder))) return asUser(user);
  const prefix = ['unshare', '--user', `--map-user=${user.uid}`, `--map-group=${user.gid}`];
  if (spawnSync('unshare', [...prefix.slice(1), 'true']).status === 0) {
    return { prefix, identity: {}, hand: (folder) => fs.chownSync(folder, 0, 0) };
  }
  throw new DatabaseUnusable(
    `PostgreSQL does not run as root, the user ${user.name} cannot reach these folders, and this system allows no ` +
      `user namespace: ${folders.join(', ')}. Start Breakbook as an ordinary user, or move the checkout and the ` +
      'data folder to where every user may enter (folders of mode 755).',
  );
}

interface User {
  uid: number;
  gid: number;
}

function asUser({ uid, gid }: User): RunAs {
  return { prefix: [], identity: { uid, gid }, hand: (folder) => fs.chownSync(folder, uid, gid) };
}

function unprivilegedUser(): User & { name: string } {
  const users = new Map(
    fs
      .readFileSync('/etc/passwd', 'utf8')
      .split('\n')
      .map((line) => line.split(':'))
      .map(([name = '', , uid, gid]) => [name, { name, uid: Number(uid), gid: Number(gid) }]),
  );
  const user = users.get('postgres') ?? users.get('nobody');
  if (user) return user;
  throw new DatabaseUnusable(
    'PostgreSQL does not run as root, and this system has neither a user postgres nor a user nobody. ' +
      'Start Breakbook as an ordinary user.',
  );
}

/** May this user enter every folder above? */
function canReach(user: User, folder: string): boolean {
  for (let above = path.dirname(path.resolve(folder)); ; above = path.dirname(above)) {
    const { mode, uid, gid } = fs.statSync(above);
    const enter = uid === user.uid ? 0o100 : gid === user.gid ? 0o010 : 0o001;
    if (!(mode & enter)) return false;
    if (above === path.dirname(above)) return true;
  }
}
