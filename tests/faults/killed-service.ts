import { type ChildProcess, spawn } from 'node:child_process';
import fs from 'node:fs';
import net from 'node:net';
import os from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import type pg from 'pg';

const PROGRAM = fileURLToPath(new URL('serve.mjs', import.meta.url));
const ROOM = fileURLToPath(new URL('../../apps/service', import.meta.url));

/** The service in a process of its own, started again on the same port after each kill. */
export class KilledService {
  #child: ChildProcess | undefined;
  #ended: Promise<void> = Promise.resolve();
  /** The end of what it said on its way: its log of errors. */
  words = '';
  /** Where its keys lie. */
  readonly keys = fs.mkdtempSync(path.join(os.tmpdir(), 'breakbook-keys-'));

  private constructor(
    private readonly database: pg.ClientConfig,
    readonly port: number,
  ) {}

  static async start(database: pg.ClientConfig): Promise<KilledService> {
    const service = new KilledService(database, await freePort());
    process.once('exit', () => fs.rmSync(service.keys, { recursive: true, force: true }));
    service.begin();
    await service.healthy();
    return service;
  }

  get url(): string {
    return `http://127.0.0.1:${this.port}`;
  }

  get pid(): number {
    return this.#child?.pid ?? 0;
  }

  /** Is the process there? It must be after its database was killed under it. */
  get alive(): boolean {
    return this.#child !== undefined && this.#child.exitCode === null && this.#child.signalCode === null;
  }

  begin(): void {
    this.#child = spawn(process.execPath, [PROGRAM], {
      cwd: ROOM,
      env: {
        ...process.env,
        FAULTS_DATABASE: JSON.stringify(this.database),
        FAULTS_PORT: String(this.port),
        FAULTS_KEYS: this.keys,
        BREAKBOOK_LOG: 'error',
      },
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    const child = this.#child;
    this.#ended = new Promise((resolve) => child.once('exit', () => resolve()));
    for (const stream of [child.stdout, child.stderr])
      stream?.on('data', (piece: Buffer) => {
        this.words = (this.words + piece.toString()).slice(-4000);
      });
  }

  /** kill -9, and gone. */
  async kill(): Promise<void> {
    this.#child?.kill('SIGKILL');
    await this.#ended;
  }

  /** What the process has computed so far, in seconds, as the system counts it; not a number where it does not say. */
  cpuSeconds(): number {
    const stat = `/proc/${this.pid}/stat`;
    if (!fs.existsSync(stat)) return Number.NaN;
    // proc(5): fields 14 and 15, utime and stime, in clock ticks of 10 ms; the name before them may hold blanks.
    const fields = fs
      .readFileSync(stat, 'utf8')
      .replace(/^.*\) /, '')
      .split(' ');
    return (Number(fields[11]) + Number(fields[12])) / 100;
  }

  /** Milliseconds until it says that it can do its work. */
  async healthy(longest = 60_000): Promise<number> {
    const began = performance.now();
    for (;;) {
      const answer = await fetch(`${this.url}/health/ready`).catch(() => undefined);
      const now = performance.now() - began;
      if (answer?.status === 200) return now;
      if (now > longest || !this.alive)
        throw new Error(`The service is not healthy after ${Math.round(now)} ms. Its last words:\n${this.words}`);
      await new Promise((resolve) => setTimeout(resolve, 20));
    }
  }
}

/** Folders that a process of this number has left in the place for temporary files. */
export function spoolsOf(pid: number): string[] {
  return fs.readdirSync(os.tmpdir()).filter((name) => name.startsWith(`breakbook-spool-${pid}-`));
}

function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const probe = net.createServer();
    probe.once('error', reject);
    probe.listen(0, '127.0.0.1', () => {
      const { port } = probe.address() as net.AddressInfo;
      probe.close(() => resolve(port));
    });
  });
}
