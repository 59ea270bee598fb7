import { spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import pg from 'pg';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { type Embedded, startEmbedded } from './embedded.js';
import { seeProcess } from './processes.js';

const isRoot = process.getuid?.() === 0;

describe('startEmbedded', () => {
  let pattern: string;
  let folder: string;
  let servers: Embedded[];

  // Making a cluster takes most of a start; one is made, and most tests begin with a copy of it.
  beforeAll(async () => {
    pattern = newFolder();
    await (await startEmbedded(pattern)).stop();
  });
  afterAll(() => fs.rmSync(pattern, { recursive: true }));

  beforeEach(() => {
    folder = newFolder();
    spawnSync('cp', ['-a', path.join(pattern, 'postgres-18'), folder]);
    servers = [];
  });
  afterEach(async () => {
    for (const server of servers) await server.stop();
    fs.rmSync(folder, { recursive: true, force: true });
  });

  async function start(...options: Parameters<typeof startEmbedded> extends [string, ...infer Rest] ? Rest : never) {
    const server = await startEmbedded(folder, ...options);
    servers.push(server);
    return server;
  }

  it('makes a durable database in a path with blanks, and starts it again with its data', async () => {
    const first = await start();
    expect(first.connection).toMatchObject({ user: 'breakbook', database: 'breakbook' });
    expect(path.basename(first.connection.host)).toMatch(/^breakbook-pg-/);
    // PostgreSQL documentation 18, 19.5 and 28.3: with these on, what was committed survives a crash.
    for (const setting of ['fsync', 'full_page_writes', 'synchronous_commit', 'data_checksums']) {
      expect(await ask(first, `show ${setting}`), setting).toBe('on');
    }
    await ask(first, 'create table kept as select 417 as specimen');
    await first.stop();

    expect(fs.existsSync(first.connection.host)).toBe(false);
    const second = await start();
    expect(second.adopted).toBe(false);
    expect(await ask(second, 'select specimen from kept')).toBe(417);
  });

  it('is not durable when asked to be fast, and refuses to go on with such a server when durability is asked for', async () => {
    const fast = await start({ unsafeFast: true });
    expect(await ask(fast, 'show fsync')).toBe('off');
    // As left by a killed test run: the server runs on, nobody looks after it.
    fs.rmSync(path.join(folder, 'launcher.json'));
    await expect(startEmbedded(folder)).rejects.toThrow(
      /fsync, full_page_writes, synchronous_commit off.*cannot be broken twice/s,
    );
  });

  it('keeps every committed row when the server is killed, and needs no hand', async () => {
    const first = await start();
    await ask(first, 'create table kept (n int)');
    const client = new pg.Client(first.connection);
    client.on('error', () => {});
    await client.connect();
    let acknowledged = 0;
    const writing = (async () => {
      for (let n = 1; ; n += 1) {
        await client.query('insert into kept values ($1)', [n]);
        acknowledged = n;
      }
    })().catch(() => {});
    await new Promise((resolve) => setTimeout(resolve, 300));
    process.kill(first.pid, 'SIGKILL');
    await writing;
    await first.stop(); // As the service does when it finds its database gone.

    const second = await start();
    expect(acknowledged).toBeGreaterThan(0);
    const kept = await ask(second, 'select count(*)::int from kept');
    // One row more may have been committed whose acknowledgement the kill cut off.
    expect([acknowledged, acknowledged + 1]).toContain(kept);
  });

  it('waits for the children of a killed server that have not seen its end', async () => {
    const first = await start();
    const client = new pg.Client(first.connection);
    client.on('error', () => {});
    await client.connect();
    const { rows } = await client.query<{ pid: number }>('select pg_backend_pid() as pid');
    const child = rows[0]?.pid ?? 0;
    process.kill(child, 'SIGSTOP'); // It sees nothing, and keeps the memory it shares with the server.
    process.kill(first.pid, 'SIGKILL');
    await first.stop();

    let awake = false;
    setTimeout(() => {
      awake = process.kill(child, 'SIGCONT');
    }, 1000);
    const second = await start();
    expect(awake).toBe(true);
    expect(second.adopted).toBe(false);
    expect(await ask(second, 'select 1')).toBe(1);
  });

  it('takes over the server of a process that was killed', async () => {
    const child = startInAnotherProcess(folder);
    const pid = Number(await child.said);
    child.process.kill('SIGKILL');
    await once(child.process, 'exit');

    const server = await start();
    expect(server).toMatchObject({ adopted: true, pid });
    expect(await ask(server, 'select specimen from kept')).toBe(417);
  });

  it('says which process has the folder while that one lives', async () => {
    const child = startInAnotherProcess(folder);
    await child.said;
    await expect(startEmbedded(folder)).rejects.toThrow(`in use by process ${child.process.pid}`);
    child.process.kill('SIGTERM');
    await once(child.process, 'exit');
  });

  it('starts although a stale pid file names a process that is something else by now', async () => {
    const first = await start();
    await ask(first, 'create table kept as select 417 as specimen');
    await first.stop();
    const pidFile = path.join(folder, 'postgres-18', 'postmaster.pid');
    for (const stale of [process.pid, 4_000_000]) {
      fs.writeFileSync(pidFile, `${stale}\n${path.join(folder, 'postgres-18')}\n`);
      const again = await start();
      expect(await ask(again, 'select specimen from kept')).toBe(417);
      await again.stop();
    }
  });

  it('starts anew although a first start was cut off half way', async () => {
    emptied(folder);
    fs.mkdirSync(path.join(folder, 'postgres-18.making'));
    fs.writeFileSync(path.join(folder, 'postgres-18.making', 'PG_VERSION'), '18\n');
    expect(await ask(await start(), 'select 1')).toBe(1);
  });

  it('starts anew although the folder was deleted under a running server', async () => {
    const child = startInAnotherProcess(folder);
    const orphan = Number(await child.said);
    child.process.kill('SIGKILL');
    await once(child.process, 'exit');
    fs.rmSync(folder, { recursive: true });

    expect((await start()).adopted).toBe(false);
    expect(seeProcess(orphan)).toBeUndefined();
  });

  it('names data of another major version', async () => {
    emptied(folder);
    fs.mkdirSync(path.join(folder, 'postgres-17'));
    await expect(startEmbedded(folder)).rejects.toThrow(/holds postgres-17.*PostgreSQL 18/);
  });

  it('refuses a socket folder that somebody else made first', async () => {
    const first = await start();
    await first.stop();
    fs.mkdirSync(first.connection.host);
    fs.chmodSync(first.connection.host, 0o777);
    const { uid, gid } = fs.statSync(path.join(folder, 'postgres-18'));
    fs.chownSync(first.connection.host, uid, gid);
    await expect(startEmbedded(folder)).rejects.toThrow('not ours alone');
    fs.rmdirSync(first.connection.host);
  });

  it.runIf(isRoot)(
    'as root, runs as another user where that one can reach the files, else in a user namespace',
    async () => {
      const open = await start({ unsafeFast: true });
      expect(fs.statSync(`/proc/${open.pid}`).uid).not.toBe(0);
      await open.stop();
      emptied(folder);
      fs.chmodSync(folder, 0o700);

      const closed = await start({ unsafeFast: true });
      expect(await ask(closed, 'select 1')).toBe(1);
      expect(fs.statSync(path.join(folder, 'postgres-18')).uid).toBe(0);
    },
  );

  it.runIf(isRoot)('runs for an ordinary user', async () => {
    emptied(folder);
    fs.chownSync(folder, 65534, 65534);
    const child = startInAnotherProcess(folder, { uid: 65534, gid: 65534 });
    const pid = Number(await child.said);
    expect(fs.statSync(`/proc/${pid}`).uid).toBe(65534);
    child.process.kill('SIGTERM');
    await once(child.process, 'exit');
    expect(seeProcess(pid)).toBeUndefined();
  });
});

function newFolder(): string {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'breakbook embedded '));
  fs.chmodSync(folder, 0o755);
  return folder;
}

/** As before the first start. */
function emptied(folder: string): void {
  fs.rmSync(path.join(folder, 'postgres-18'), { recursive: true });
}

async function ask(server: Embedded, sql: string): Promise<unknown> {
  const client = new pg.Client({ ...server.connection });
  await client.connect();
  try {
    const { rows } = await client.query<Record<string, unknown>>(sql);
    return rows[0] && Object.values(rows[0])[0];
  } finally {
    await client.end();
  }
}

/** Starts the server from another process, which says its pid, and stops it when it gets SIGTERM. */
function startInAnotherProcess(folder: string, identity: { uid?: number; gid?: number } = {}) {
  const built = path.resolve(import.meta.dirname, '../../dist/database/embedded.js');
  const program = `
    import { startEmbedded } from ${JSON.stringify(pathToFileURL(built).href)};
    import pg from ${JSON.stringify(pathToFileURL(path.resolve(import.meta.dirname, '../../../../node_modules/pg/lib/index.js')).href)};
    const server = await startEmbedded(${JSON.stringify(folder)});
    const client = new pg.Client(server.connection);
    await client.connect();
    await client.query('create table kept as select 417 as specimen');
    await client.end();
    process.on('SIGTERM', () => server.stop().then(() => process.exit()));
    setInterval(() => {}, 1000);
    console.log(server.pid);`;
  const child = spawn(process.execPath, ['--input-type=module', '-e', program], {
    ...identity,
    cwd: '/',
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  return { process: child, said: once(child.stdout, 'data').then(([data]) => String(data).trim()) };
}
