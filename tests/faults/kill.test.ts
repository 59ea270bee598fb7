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
} from '@breakbook/records';
import { importLot, labOf, prepareJobs } from '@breakbook/service';
import type { DataSource } from 'typeorm';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { queryAs } from '../database.ts';
import { keepLot, specimenKey } from '../sent-runs.ts';
import { aCaller, type SignedInCaller, signInAt } from '../service.ts';
import { Decider } from './decisions.ts';
import { type Broken, invariants } from './invariants.ts';
import { KilledService, spoolsOf } from './killed-service.ts';
import { Sender } from './uploads.ts';

/** Ten in every run of the tests; `npm run faults` asks for a hundred. */
const TRIALS = Number(process.env.FAULT_TRIALS ?? 10);
const AT_ONCE = 8;
/**
 * So many send one run at once under one key, in so many trials of the long form. It is most of the work of a trial: in
 * the others, and among other tests, a few do.
 */
const CROWD = { many: 50, trials: process.env.FAULT_TRIALS === undefined ? 0 : 100, few: 4 };
/** So many runs are decided about all the time. */
const DECISIONS = 2;
/** Uploads go on for so long at most, in ms, before the kill. */
const LATEST_KILL = 700;
const ROOT = fileURLToPath(new URL('../..', import.meta.url));

/** All records are verified after so many trials, and after the last: what is broken once stays so and is found then. */
const VERIFIED_EVERY = process.env.FAULT_TRIALS === undefined ? 5 : 25;
/** Specimens for each trial, more than are used up in it. */
const SPECIMENS = 16;

/** Specimens in a lot. */
const A_LOT = 250;

const VICTIMS = ['service', 'PostgreSQL', 'backend of PostgreSQL'] as const;

/**
 * The bars: no hand is needed, and it takes no longer than this, in ms: a new start of the service, or a connection to a
 * PostgreSQL that recovers. Held to in the long form; among other tests it is their work that would be measured.
 */
const HEALTHY_WITHIN: Record<Trial['victim'], number> =
  process.env.FAULT_TRIALS === undefined
    ? { service: 60_000, PostgreSQL: 60_000, 'backend of PostgreSQL': 60_000 }
    : { service: 10_000, PostgreSQL: 30_000, 'backend of PostgreSQL': 30_000 };

interface Trial {
  victim: (typeof VICTIMS)[number];
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
    const sender = new Sender(service.url, lab.sender.cookie, () => specimenKey(++specimen));
    const decider = new Decider(lab.reviewer);
    // One run each to be decided about from the first trial on.
    sender.start(DECISIONS);
    await sender.stop();
    const trials: Trial[] = [];
    for (let n = 1; n <= TRIALS; n++) {
      const victim = VICTIMS[(n - 1) % VICTIMS.length] ?? 'service';
      trials.push(await trial(victim, n <= CROWD.trials ? CROWD.many : CROWD.few, { sender, decider }, lab));
      const found = await look(lab.labId, { sender, decider }, n % VERIFIED_EVERY === 0);
      expect(found, `after trial ${n}`).toEqual(NOTHING);
      // Whoever breaks off a long form knows how far it came.
      if (n % VERIFIED_EVERY === 0 && n < TRIALS) report(trials, { sender, decider }, found);
    }
    const broken = await look(lab.labId, { sender, decider }, true);
    report(trials, { sender, decider }, broken);
    await lab.dataSource.destroy();
    expect([...sender.unexpected, ...decider.unexpected], service.words).toEqual([]);
    expect(broken).toEqual(NOTHING);
    for (const { victim, healthyAfter } of trials) expect(healthyAfter, victim).toBeLessThan(HEALTHY_WITHIN[victim]);
    // The kills must have come while something was under way, or they show nothing.
    expect(sender.sent.filter(({ attempts }) => attempts > 1).length).toBeGreaterThan(TRIALS);
    expect(decider.brokenOff).toBeGreaterThan(TRIALS / 2);
  },
  120_000 + TRIALS * 60_000,
);

interface Killed {
  labId: string;
  sender: SignedInCaller;
  reviewer: SignedInCaller;
  dataSource: DataSource;
  lot: string;
  /** The last evaluation of the small lot, of which there is no report yet. */
  evaluation: number;
}

interface Work {
  sender: Sender;
  decider: Decider;
}

async function trial(
  victim: Trial['victim'],
  underOneKey: number,
  { sender, decider }: Work,
  lab: Killed,
): Promise<Trial> {
  await lab.reviewer.again();
  const jobs = [
    [lab.sender, await asked(lab.sender, `/api/lots/${lab.lot}/evaluations`)],
    [lab.reviewer, await asked(lab.reviewer, `/api/evaluations/${lab.evaluation}/documents`, REPORT)],
  ] as const;
  sender.start(AT_ONCE);
  const crowd = sender.crowd(underOneKey);
  decider.start(sender.sent.slice(0, DECISIONS).map(({ run }) => run));
  await new Promise((resolve) => setTimeout(resolve, random() * LATEST_KILL));
  const pid = service.pid;
  const killed = performance.now();
  if (victim === 'service') {
    await service.kill();
    service.begin();
  } else if (victim === 'PostgreSQL') {
    await killPostgres();
    postgres = await startEmbedded(folder);
  } else await killBackend();
  await service.healthy();
  const healthyAfter = performance.now() - killed;
  const cpu = service.cpuSeconds();
  await Promise.all([sender.stop(), crowd, decider.stop()]);
  // A dead process leaves nothing behind that the next one does not clear away.
  if (victim === 'service') expect(spoolsOf(pid)).toEqual([]);
  expect(service.alive).toBe(true);
  for (const [by, job] of jobs) lab.evaluation = (await untilEnded(by, job)) ?? lab.evaluation;
  return { victim, healthyAfter, cpu };
}

const REPORT = { kind: 'lot test report' };

const NOTHING: Broken = { lost: [], altered: [], half: [], doubled: [], ledger: [] };

/** What is broken, on connections that no kill has touched. */
async function look(labId: string, { sender: { sent }, decider: { decided } }: Work, verify: boolean): Promise<Broken> {
  const dataSource = await openDataSource({ ...postgres.connection, user: SERVICE_ROLE }, 2);
  try {
    const records = new Records(dataSource);
    return await invariants({ owner: postgres.connection, records, labId }, { sent, decided }, verify);
  } finally {
    await dataSource.destroy();
  }
}

/** A lab with enough specimens, a small lot to be evaluated, and people signed in who may do all of it. */
async function setUp(): Promise<Killed> {
  const dataSource = await openDataSource({ ...postgres.connection, user: SERVICE_ROLE }, 2);
  const records = new Records(dataSource);
  const bundle = await keepLot(records, A_LOT);
  // One change writes a whole lot, and takes longer for a large one than two for its halves.
  for (let from = A_LOT + 1; from <= TRIALS * SPECIMENS + 50; from += A_LOT) await keepLot(records, A_LOT, from);
  const keyed = path.join(ROOT, 'sample-runs/dunlin-42-keyed');
  const small = readLotFolder(
    new Map(LOT_FOLDER_DOCUMENTS.map((name) => [name, fs.readFileSync(path.join(keyed, name))])),
  );
  await importLot(records, new PostgresRawStore(), small, () => []);
  const by = await labOf(records, bundle);
  const house = {
    url: service.url,
    database: { dataSource, records },
    keys: { folder: service.keys },
    lab: by,
    callerWith: (headers: Record<string, string>) => aCaller(service.url, headers),
  };
  const [sender, reviewer] = [
    await signInAt(house, 'sender', ['record', 'decide']),
    await signInAt(house, 'reviewer', ['review', 'issue']),
  ];
  const evaluation = await untilEnded(sender, await asked(sender, `/api/lots/${small.lot.lot}/evaluations`));
  if (evaluation === undefined) throw new Error('The small lot was not evaluated.');
  return { labId: by.labId, sender, reviewer, dataSource, lot: small.lot.lot, evaluation };
}

/** kill -9 of the server; its children see that it is gone and end themselves. */
async function killPostgres(): Promise<void> {
  process.kill(postgres.pid, 'SIGKILL');
  await postgres.stop();
}

/** kill -9 of one of the processes that serve the service's connections; the server starts all of them anew. */
async function killBackend(): Promise<void> {
  const backends = await queryAs<{ pid: number }>(
    postgres.connection,
    `select pid from pg_stat_activity where usename = '${SERVICE_ROLE}' and backend_type = 'client backend'
     order by state = 'active' desc, pid`,
  );
  const [backend] = backends;
  if (!backend) throw new Error('The service has no connection to its database.');
  process.kill(backend.pid, 'SIGKILL');
  // The server goes on under its own number: until it has ended the others it would still answer.
  for (const until = Date.now() + 30_000; ; await new Promise((resolve) => setTimeout(resolve, 20))) {
    const [answer] = await queryAs<{ pid: number }>(
      postgres.connection,
      `select pid from pg_stat_activity where pid = ${backend.pid}`,
    ).catch(() => [backend]);
    if (!answer) return;
    if (Date.now() > until) throw new Error('PostgreSQL did not come back after one of its processes was killed.');
  }
}

/** Waits for a job, in whatever process it is done; answers the evaluation that came of it, where one did. */
async function untilEnded(by: SignedInCaller, id: string): Promise<number | undefined> {
  for (;;) {
    const { state, evaluation } = (await by.ask('GET', `/api/jobs/${id}`)).body;
    if (state === 'done') return evaluation;
    if (state !== 'waiting' && state !== 'running') throw new Error(`Job ${id} is ${state}.`);
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
}

/** Asks for work; the job's id. */
async function asked(by: SignedInCaller, address: string, body?: object): Promise<string> {
  const answer = await by.ask('POST', address, { body });
  if (answer.status !== 202) throw new Error(`${address}: ${answer.status} ${JSON.stringify(answer.body)}`);
  return answer.body.id;
}

function report(trials: Trial[], { sender: { sent }, decider }: Work, broken: Broken): void {
  const line = (victim: Trial['victim']) => {
    const of = trials.filter((one) => one.victim === victim);
    const times = of.map(({ healthyAfter }) => Math.round(healthyAfter)).sort((a, b) => a - b);
    return `kill -9 of the ${victim}: ${of.length} times; healthy again after ${times[Math.floor(times.length / 2)]} ms (median), ${times.at(-1)} ms (longest)`;
  };
  const starts = trials.filter(({ victim }) => victim === 'service').map(({ cpu }) => cpu);
  console.log(
    [
      ...VICTIMS.map(line),
      `until it is healthy a start of the service computes for ${(starts.reduce((sum, one) => sum + one, 0) / starts.length).toFixed(1)} s (mean); ${os.availableParallelism()} cores, Node ${process.versions.node}, load ${LOAD.toFixed(1)} before, ${os.loadavg()[1]?.toFixed(1)} at the end`,
      `${sent.length} uploads, ${sent.filter(({ attempts }) => attempts > 1).length} of them broken off and sent again; ${sent.filter((one) => one.acknowledged).length} acknowledged`,
      `one run sent at once under one key: ${Math.min(trials.length, CROWD.trials)} times by ${CROWD.many}, ${Math.max(0, trials.length - CROWD.trials)} times by ${CROWD.few}`,
      `${decider.decided.length} decisions, ${decider.brokenOff} times without an answer; ${trials.length} evaluations and ${trials.length} reports under way at a kill`,
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
