import fs from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { LOT_FOLDER_DOCUMENTS, type LotBundle, type Run, readLotFolder } from '@breakbook/lab';
import { PostgresRawStore } from '@breakbook/records';
import { importLot } from '@breakbook/service';
import { type TestService } from './service.ts';

const FOLDER = fileURLToPath(new URL('../sample-runs/dunlin-42-keyed', import.meta.url));

/** What became of a specimen: the pressure at which it broke, in kPa, and how its run stands. */
export interface KeyedRun {
  kPa: number;
  /** Not decided where it is left out. */
  validity?: Run['validity'];
  /** Drawn at random where nothing else is said. */
  origin?: LotBundle['specimens'][number]['origin'];
}

export const VALID: Run['validity'] = { validity: 'valid', person: 'a-grossmann', at: '2026-07-17T12:20:00Z' };

/**
 * A lot of the samples with these runs and no raw file, judged in no time. The limit of the governing body asks for
 * 1500 kPa, that of the lab itself for 1750 kPa and the uncertainty beside.
 */
export function keyedLot(
  runs: readonly KeyedRun[],
  given: { lot?: string; planned?: number; internalDecides?: boolean; spare?: number } = {},
): LotBundle {
  const documents = LOT_FOLDER_DOCUMENTS.map((file) => [file, fs.readFileSync(path.join(FOLDER, file))] as const);
  const bundle = readLotFolder(new Map(documents));
  const { lot = 'KEYED-1', planned = runs.length, internalDecides = false, spare = 0 } = given;
  const [line] = bundle.plan.lines;
  const [run] = bundle.runs;
  const [specimen] = bundle.specimens;
  if (!line || !run || !specimen) throw new Error('The sample lot is not as it was.');
  const criterion = (name: string, limit: string, revision: number) =>
    ({ kind: 'every specimen', criterion: name, limit: { limit, revision } }) as const;
  return {
    ...bundle,
    lot: { ...bundle.lot, lot },
    plan: {
      ...bundle.plan,
      plan: `PLAN-${lot}`,
      lines: [
        {
          ...line,
          specimens: planned,
          criteria: [criterion('A1', 'OCF-W-7.2', 1), ...(internalDecides ? [criterion('A2', 'SW-RIM-BURST', 2)] : [])],
        },
      ],
    },
    // Some may be there that nobody has run yet.
    specimens: [...runs, ...Array.from({ length: spare }, (): Partial<KeyedRun> => ({}))].map(
      ({ origin = 'drawn at random' }, index) => ({
        ...specimen,
        lot,
        specimen: `${lot}-${index + 1}`,
        serial: `S-${lot}-${index + 1}`,
        origin,
      }),
    ),
    runs: runs.map(({ kPa, validity }, index) => keyedRun(run, lot, index + 1, kPa, validity)),
  };
}

/** A run of the lot's specimen of this number. */
export function keyedRun(model: Run, lot: string, n: number, kPa: number, validity: Run['validity']): Run {
  const { validity: _validity, ...run } = model;
  const [measurement] = model.measurements;
  if (!measurement) throw new Error('The sample run has no measurement.');
  return {
    ...run,
    run: `${lot}-r${n}`,
    specimen: `${lot}-${n}`,
    measurements: [{ ...measurement, quantity: { value: kPa, unit: 'kPa', entered: { text: `${kPa}`, unit: 'kPa' } } }],
    ...(validity ? { validity } : {}),
  };
}

/** Keeps such a lot with its evaluation. */
export async function keepKeyedLot(service: TestService, bundle: LotBundle): Promise<LotBundle> {
  await importLot(service.records, new PostgresRawStore(), bundle, () => []);
  return bundle;
}
