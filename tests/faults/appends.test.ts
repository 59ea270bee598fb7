import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import {
  type Actor,
  type Embedded,
  foundLab,
  openDataSource,
  PostgresRawStore,
  prepare,
  Records,
  SERVICE_ROLE,
  startEmbedded,
  tables,
  verifyRecords,
} from '@breakbook/records';
import pg from 'pg';
import type { DataSource } from 'typeorm';
import { afterAll, beforeAll, expect, it, vi } from 'vitest';

const TRIALS = Number(process.env.FAULT_TRIALS ?? 10);
const WRITERS = 32;
/** How many changes each writer makes undisturbed, and as many again through the kills. */
const EACH = TRIALS >= 100 ? 1000 : TRIALS;
const KILLS = Math.ceil(TRIALS / 5);
const MIGRATIONS = fileURLToPath(new URL('../../migrations', import.meta.url));
/** A writer whose change failed waits so long, in ms, and goes on with the next. */
const PAUSE = 100;

let folder: string;
let postgres: Embedded;
let dataSource: DataSource;
let records: Records;
let by: Actor;

beforeAll(async () => {
  folder = fs.mkdtempSync(path.join(os.tmpdir(), 'breakbook-appends-'));
  fs.chmodSync(folder, 0o755);
  postgres = await startEmbedded(folder);
  await prepare(postgres.connection, MIGRATIONS, true);
  dataSource = await openDataSource({ ...postgres.connection, user: SERVICE_ROLE }, WRITERS);
  records = new Records(dataSource);
  const founder = { person: 'set-up', name: 'Set-up', role: 'program', duties: [] };
  const lab = { lab: 'saltmarsh', name: 'Saltmarsh Wheelworks', address: 'Quay 1', zone: 'Europe/Lisbon' };
  by = await foundLab(records, lab, { kind: 'program', content: founder });
}, 120_000);

afterAll(async () => {
  await dataSource?.destroy().catch(() => {});
  await postgres?.stop();
  fs.rmSync(folder, { recursive: true, force: true });
});

it(
  `chains the entries of ${WRITERS} writers at once without gap, fork or double number, through ${KILLS} kills of PostgreSQL`,
  async () => {
    const appends = timedAppends();
    const calm = await write('calm', EACH);
    const calmAppends = [...appends];
    const [broken] = await Promise.all([write('killed', EACH), killed(KILLS)]);
    // A change that was cut off in its commit may have happened or not; its writer was told of a failure.
    const unclear = new Set(broken.failed);
    const kept = await records.read(by.labId).find(tables.Product, {}, { number: 'asc' });
    const keys = new Set(kept.map(({ key }) => key));
    vi.restoreAllMocks();
    const verified = await verifyRecords(records.read(by.labId), new PostgresRawStore());
    report(calm.times, calmAppends, broken, kept.length);

    expect(calm.failed).toEqual([]);
    expect(broken.failed.length).toBeGreaterThan(0); // Or the kills met nobody at work.
    expect([...calm.done, ...broken.done].filter((key) => !keys.has(key))).toEqual([]);
    const done = new Set([...calm.done, ...broken.done]);
    expect(kept.filter(({ key }) => !done.has(key) && !unclear.has(key))).toEqual([]);
    // Short numbers 1, 2, 3 ... and one entry for each product behind the one that founded the lab.
    expect(kept.map(({ number }) => number)).toEqual(kept.map((_, index) => index + 1));
    expect(verified).toMatchObject({ holds: true, entries: 1 + kept.length });
  },
  120_000 + TRIALS * 30_000,
);

interface Written {
  done: string[];
  failed: string[];
  /** How long each change took that was done, in ms. */
  times: number[];
}

/** So many changes done by every writer, all writers at once; each adds one row with a short number, and its entry. */
async function write(name: string, each: number): Promise<Written> {
  const written: Written = { done: [], failed: [], times: [] };
  const writer = async (_: unknown, which: number) => {
    for (let n = 0, done = 0; done < each; n++) {
      const key = `${name}-${which}-${n}`;
      const began = performance.now();
      try {
        await records.change(by, 'product defined', (rows) => rows.add(tables.Product, { key }));
        written.times.push(performance.now() - began);
        written.done.push(key);
        done += 1;
      } catch {
        written.failed.push(key);
        await new Promise((resolve) => setTimeout(resolve, PAUSE));
      }
    }
  };
  await Promise.all(Array.from({ length: WRITERS }, writer));
  return written;
}

/** Fills a list with how long each append takes, in ms: from asking for the head of the chain until the commit is answered. */
function timedAppends(): number[] {
  const times: number[] = [];
  const began = new WeakMap<pg.Client, number>();
  const query = pg.Client.prototype.query as (...asked: unknown[]) => Promise<unknown>;
  vi.spyOn(pg.Client.prototype, 'query').mockImplementation(async function (this: pg.Client, ...asked: unknown[]) {
    const { text } = asked[0] as { text?: string };
    if (text?.startsWith('select append_entry')) began.set(this, performance.now());
    const answer = await query.apply(this, asked);
    if (text === 'commit') times.push(performance.now() - (began.get(this) ?? Number.NaN));
    return answer;
  });
  return times;
}

/** Kills the server so often, half a second of work between. */
async function killed(times: number): Promise<void> {
  for (let n = 0; n < times; n++) {
    await new Promise((resolve) => setTimeout(resolve, 500));
    process.kill(postgres.pid, 'SIGKILL');
    await postgres.stop();
    postgres = await startEmbedded(folder);
  }
}

function report(changes: number[], appends: number[], broken: Written, kept: number): void {
  console.log(
    [
      `${WRITERS} writers at once on one ledger, ${changes.length} changes: one takes ${spread(changes)}`,
      `the append within it, from the head of the chain to the end of the commit: ${spread(appends)}`,
      `through ${KILLS} kills of PostgreSQL: ${broken.done.length} changes acknowledged, ${broken.failed.length} broken off; ${kept} kept in all; load ${os.loadavg()[0]?.toFixed(1)}`,
    ].join('\n'),
  );
}

function spread(times: number[]): string {
  const sorted = times.toSorted((a, b) => a - b);
  const at = (share: number) => sorted[Math.floor(share * sorted.length)]?.toFixed(1);
  return `${at(0.5)} ms (median), ${at(0.95)} ms (95 %), ${sorted.at(-1)?.toFixed(1)} ms (longest)`;
}
