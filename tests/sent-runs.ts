import { randomUUID } from 'node:crypto';
import fs from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { LOT_FOLDER_DOCUMENTS, type LotBundle, type Run, readLotFolder } from '@breakbook/lab';
import { PostgresRawStore, type Records } from '@breakbook/records';
import { importLot } from '@breakbook/service';
import { type Answer, type Caller } from './service.js';

const FOLDER = fileURLToPath(new URL('../sample-runs/dunlin-42-preproduction', import.meta.url));

/** A run as it is sent, with the plan it is made under. */
export type SentRun = Omit<Run, 'files' | 'validity'> & { plan: { plan: string; revision: number } };

/** The pre-production lot of the samples, without its runs. */
export function lotWithoutRuns(): LotBundle {
  const documents = LOT_FOLDER_DOCUMENTS.map((file) => [file, fs.readFileSync(path.join(FOLDER, file))] as const);
  return { ...readLotFolder(new Map(documents)), runs: [] };
}

/** Keeps that lot with so many specimens, called X0001, X0002 ..., each good for one run. */
export async function keepLot(records: Records, specimens: number, from = 1): Promise<LotBundle> {
  const bundle = lotWithoutRuns();
  const [model] = bundle.specimens;
  if (!model) throw new Error('The sample lot has no specimen.');
  const lot = from === 1 ? bundle.lot.lot : `${bundle.lot.lot}-${from}`;
  const many = Array.from({ length: specimens }, (_, index) => ({
    ...model,
    lot,
    specimen: specimenKey(index + from),
    serial: `X-${specimenKey(index + from)}`,
  }));
  const kept = { ...bundle, lot: { ...bundle.lot, lot, size: specimens + 100 }, specimens: many };
  await importLot(records, new PostgresRawStore(), kept, () => []);
  return kept;
}

export function specimenKey(n: number): string {
  return `X${String(n).padStart(4, '0')}`;
}

const STARTED = '2026-09-28T06:50:00Z';
const OPERATOR = 'b-ravenscroft';

/** A burst run of this specimen that destroys it, as its operator describes it. */
export function burstRun(specimen: string, change: Partial<SentRun> = {}): SentRun {
  return {
    run: `run-${specimen}`,
    specimen,
    plan: { plan: lotWithoutRuns().plan.plan, revision: lotWithoutRuns().plan.revision },
    planLine: 'A',
    method: 'BURST-CLAMP',
    methodRevision: 2,
    rig: 'R1',
    layoutRevision: 1,
    operator: OPERATOR,
    startedAt: STARTED,
    conditions: { medium: 'water' },
    measurements: [],
    examination: {
      endReason: 'something broke',
      modes: [{ code: 'BF-FLG' }],
      partSound: 'not sound',
      person: OPERATOR,
      at: '2026-09-28T07:04:55Z',
    },
    readiness: { confirmedBy: OPERATOR, at: '2026-09-28T06:45:00Z' },
    deviations: [],
    ...change,
  };
}

/** The file of such a run: vented, a ramp of 2 bar a second to 21 bar, and the fall; no two specimens' are alike. */
export function burstFile(specimen: string, rows = 2600): string {
  let state = [...specimen].reduce((sum, one) => (sum * 31 + one.charCodeAt(0)) % 9973, 7);
  /** Multiples of 1 mbar, drawn by Park and Miller's generator: no stretch of them comes twice. */
  const noise = () => {
    state = (state * 48271) % (2 ** 31 - 1);
    return 0.001 * (state % 17);
  };
  const lines = Array.from({ length: rows }, (_, index) => {
    const time = index / 200;
    const ramp = time < 2 ? 0 : time < 12.5 ? 2 * (time - 2) : 0;
    return `${time.toFixed(3)},${(ramp + noise()).toFixed(3)},${(ramp + noise() + 0.01).toFixed(3)},21.80`;
  });
  return [
    `# specimen: ${specimen}`,
    '# rig: R1',
    `# started: ${STARTED}`,
    '# medium: water',
    '# set-up: metal bead clamps, rubber ring',
    'time [s],rim pressure [bar],second pressure [bar],room temperature [Cel]',
    ...lines,
    '',
  ].join('\n');
}

/** The form in which a run is sent with its files. */
export function formOf(run: unknown, files: Record<string, string | Uint8Array> = {}): FormData {
  const form = new FormData();
  form.append('run', new Blob([JSON.stringify(run)], { type: 'application/json' }), 'run.json');
  for (const [name, content] of Object.entries(files))
    form.append('file', new Blob([content as Uint8Array<ArrayBuffer>], { type: 'text/csv' }), name);
  return form;
}

/** Sends such a run with its file, and answers what it was taken as. */
export async function sendBurst(operator: Caller, specimen: string, rows?: number): Promise<Answer> {
  const sent = await operator.ask('POST', '/api/runs', {
    body: formOf(burstRun(specimen), { 'log.csv': burstFile(specimen, rows) }),
    headers: { 'idempotency-key': randomUUID() },
  });
  if (sent.status !== 201) throw new Error(`The run of ${specimen} was not taken: ${JSON.stringify(sent.body)}`);
  return sent;
}
