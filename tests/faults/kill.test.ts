import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { LOT_FOLDER_DOCUMENTS, readLotFolder } from '@breakbook/lab';
import {
  type Embedded,
  openDataSource,
  PostgresRawStore,
  prepare,
  Records,
  SERVICE_ROLE,
  startEmbedded,
  tables,
} from '@breakbook/records';
import { importLot, labOf, prepareJobs } from '@breakbook/service';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { givePassphrase } from '../../apps/service/src/sign-in/credentials.ts';
import { hashPassphrase } from '../../apps/service/src/sign-in/passphrase-hash.ts';
import { keepLot, specimenKey } from '../sent-runs.ts';
import { type Broken, invariants } from './invariants.ts';
import { KilledService, spoolsOf } from './killed-service.ts';
import { Sender } from './uploads.ts';

/** Ten in every run of the tests; `npm run faults` asks for a hundred. */
const TRIALS = Number(process.env.FAULT_TRIALS ?? 10);
const AT_ONCE = 8;
/** Uploads go on for so long at most, in ms, before the kill. */
const LATEST_KILL = 700;
/**
 * The bar: no hand is needed, and it takes no longer than this, in ms. Held to where the trials have the machine to
 * themselves; among other tests it is their work that would be measured.
 */
const HEALTHY_WITHIN = process.env.FAULT_TRIALS === undefined ? 60_000 : 10_000;
const PASSPHRASE = 'breaks wheels on purpose';
const ROOT = fileURLToPath(new URL('../..', import.meta.url));

/** All records are verified after so many trials, and after the last: what is broken once stays so and is found then. */
const VERIFIED_EVERY = 5;
/** Specimens for each trial, more than are used up in it. */
const SPECIMENS = 16;

interface Trial {
  victim: 'service' | 'PostgreSQL';
  /** From the kill until the service says that it can do its work again, in ms. */
  healthyAfter: number;
  /** What the service's process had computed by then, in s; it hardly depends on what else the machine does. */
  cpu: number;
}

let folder: string;
let postgres: Embedded;
let service: KilledService;
const SEED = Number(process.env.FAULT_SEED ?? 1 + (Date.now() % (2 ** 31 - 2)));
let seed = SEED;
/** What else the machine did, over five minutes: figures in time mean little without it. */
const LOAD = os.loadavg()[1] ?? Number.NaN;

beforeAll(async () => {
  folder = fs.mkdtempSync(path.join(os.tmpdir(), 'breakbook-faults-'));
  fs.chmodSync(folder, 0o755);
  // With every guarantee on: this is the server that `npm start` starts.
  postgres = await startEmbedded(folder);
  await prepare(postgres.connection, path.join(ROOT, 'migrations'), true);
  await prepareJobs(postgres.connection);
  service = await KilledService.start({ ...postgres.connection, user: SERVICE_ROLE });
}, 120_000);

afterAll(async () => {
  await service?.kill();
  await postgres?.stop();
  fs.rmSync(folder, { recursive: true, force: true });
});

it(
  `keeps what it has acknowledged, and each thing once, through ${TRIALS} times kill -9`,
  async () => {
    const lab = await setUp();
    let specimen = 0;
    const sender = new Sender(service.url, lab.cookie, () => specimenKey(++specimen));
    const trials: Trial[] = [];
    for (let n = 1; n <= TRIALS; n++) {
      trials.push(await trial(n % 2 === 1 ? 'service' : 'PostgreSQL', sender, lab));
      const found = await look(lab.labId, sender, n % VERIFIED_EVERY === 0);
      expect(found, `after trial ${n}`).toEqual(NOTHING);
    }
    const broken = await look(lab.labId, sender, true);
    report(trials, sender, broken);
    expect(sender.unexpected, service.words).toEqual([]);
    expect(broken).toEqual(NOTHING);
    expect(Math.max(...trials.map(({ healthyAfter }) => healthyAfter))).toBeLessThan(HEALTHY_WITHIN);
    // The kills must have come while something was under way, or they show nothing.
    expect(sender.sent.filter(({ attempts }) => attempts > 1).length).toBeGreaterThan(TRIALS);
  },
  120_000 + TRIALS * 60_000,
);

async function trial(
  victim: Trial['victim'],
  sender: Sender,
  lab: { labId: string; cookie: string; lot: string },
): Promise<Trial> {
  const job = await ask(`/api/lots/${lab.lot}/evaluations`, lab.cookie, 'POST');
  sender.start(AT_ONCE);
  await new Promise((resolve) => setTimeout(resolve, random() * LATEST_KILL));
  const pid = service.pid;
  const killed = performance.now();
  if (victim === 'service') {
    await service.kill();
    service.begin();
  } else {
    await killPostgres();
    postgres = await startEmbedded(folder);
  }
  await service.healthy();
  const healthyAfter = performance.now() - killed;
  const cpu = service.cpuSeconds();
  await sender.stop();
  // A dead process leaves nothing behind that the next one does not clear away.
  if (victim === 'service') expect(spoolsOf(pid)).toEqual([]);
  expect(service.alive).toBe(true);
  await untilEnded(job.id as string, lab.cookie);
  return { victim, healthyAfter, cpu };
}

const NOTHING: Broken = { lost: [], altered: [], half: [], doubled: [], ledger: [] };

/** What is broken, on connections that no kill has touched. */
async function look(labId: string, { sent }: Sender, verify: boolean): Promise<Broken> {
  const dataSource = await openDataSource({ ...postgres.connection, user: SERVICE_ROLE }, 2);
  try {
    const records = new Records(dataSource);
    return await invariants({ owner: postgres.connection, records, labId }, sent, verify);
  } finally {
    await dataSource.destroy();
  }
}

/** A lab with enough specimens, a small lot to be evaluated, and somebody signed in who may do all of it. */
async function setUp(): Promise<{ labId: string; cookie: string; lot: string }> {
  const dataSource = await openDataSource({ ...postgres.connection, user: SERVICE_ROLE }, 2);
  const records = new Records(dataSource);
  const bundle = await keepLot(records, TRIALS * SPECIMENS + 50);
  const keyed = path.join(ROOT, 'sample-runs/dunlin-42-keyed');
  const small = readLotFolder(
    new Map(LOT_FOLDER_DOCUMENTS.map((name) => [name, fs.readFileSync(path.join(keyed, name))])),
  );
  await importLot(records, new PostgresRawStore(), small, () => []);
  const by = await labOf(records, bundle);
  const hash = await hashPassphrase(PASSPHRASE);
  await records.change(by, 'person added', async (rows) => {
    const person = await rows.add(tables.Person, { key: 'sender', kind: 'person' });
    const content = {
      person: 'sender',
      name: 'Sender',
      role: 'sends runs',
      duties: ['record' as const, 'decide' as const],
    };
    await rows.addVersion(tables.PersonVersion, person.id, { content });
    await givePassphrase(rows, person, hash, { cause: 'first start', temporary: false });
  });
  await dataSource.destroy();
  const answer = await fetch(`${service.url}/api/sign-in`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ person: 'sender', passphrase: PASSPHRASE }),
  });
  if (answer.status !== 200) throw new Error(`The sender could not sign in: ${await answer.text()}`);
  return { labId: by.labId, cookie: answer.headers.get('set-cookie')?.split(';')[0] ?? '', lot: small.lot.lot };
}

/** kill -9 of the server; its children see that it is gone and end themselves. */
async function killPostgres(): Promise<void> {
  process.kill(postgres.pid, 'SIGKILL');
  await postgres.stop();
}

async function untilEnded(id: string, cookie: string): Promise<void> {
  for (;;) {
    const { state } = await ask(`/api/jobs/${id}`, cookie);
    if (state === 'done') return;
    if (state !== 'waiting' && state !== 'running') throw new Error(`Job ${id} is ${state}.`);
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
}

async function ask(address: string, cookie: string, method = 'GET'): Promise<Record<string, unknown>> {
  const answer = await fetch(`${service.url}${address}`, { method, headers: { cookie } });
  const body = (await answer.json()) as Record<string, unknown>;
  if (!answer.ok) throw new Error(`${method} ${address}: ${answer.status} ${JSON.stringify(body)}`);
  return body;
}

function report(trials: Trial[], { sent }: Sender, broken: Broken): void {
  const line = (victim: Trial['victim']) => {
    const of = trials.filter((one) => one.victim === victim);
    const times = of.map(({ healthyAfter }) => Math.round(healthyAfter)).sort((a, b) => a - b);
    return `kill -9 of the ${victim}: ${of.length} times; healthy again after ${times[Math.floor(times.length / 2)]} ms (median), ${times.at(-1)} ms (longest)`;
  };
  const starts = trials.filter(({ victim }) => victim === 'service').map(({ cpu }) => cpu);
  console.log(
    [
      line('service'),
      line('PostgreSQL'),
      `until it is healthy a start of the service computes for ${(starts.reduce((sum, one) => sum + one, 0) / starts.length).toFixed(1)} s (mean); ${os.availableParallelism()} cores, Node ${process.versions.node}, load ${LOAD.toFixed(1)} before, ${os.loadavg()[1]?.toFixed(1)} at the end`,
      `${sent.length} uploads, ${sent.filter(({ attempts }) => attempts > 1).length} of them broken off and sent again; ${sent.filter((one) => one.acknowledged).length} acknowledged`,
      `found wrong: ${Object.entries(broken)
        .map(([what, found]) => `${what} ${found.length}`)
        .join(', ')}`,
      `seed ${SEED}`,
    ].join('\n'),
  );
}

/** Park and Miller's minimal standard generator (1988): the moments of a run can be tried again by its seed. */
function random(): number {
  seed = (seed * 48271) % 2147483647;
  return seed / 2147483647;
}
