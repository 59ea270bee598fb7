import type { LotBundle } from '@breakbook/lab';
import { type Actor, foundLab, type RawStore, type Records, tables } from '@breakbook/records';
import { evaluateAndKeep, type StoredEvaluation } from '../evaluations/evaluate-stored-lot.js';
import { recordRun } from '../runs/record-run.js';
import { SET_UP } from '../sign-in/the-machine.js';
import type { SentRunFile } from '../workers/run-to-read.js';
import { importDefinitions } from './import-definitions.js';

export interface ImportedLot {
  evaluation: StoredEvaluation;
  runs: number;
}

/** The lab of a bundle, founded where it is not there. */
export async function labOf(records: Records, bundle: LotBundle): Promise<Actor> {
  const known = (await records.labs()).find(({ key }) => key === bundle.lab.lab);
  if (!known) return foundLab(records, bundle.lab, { kind: 'program', content: SET_UP });
  const setUp = await records.read(known.id).named(tables.Person, SET_UP.person);
  return { labId: known.id, personId: setUp.id };
}

/** Is this lot kept, with its evaluation? */
export async function hasLot(records: Records, bundle: LotBundle): Promise<boolean> {
  const lab = (await records.labs()).find(({ key }) => key === bundle.lab.lab);
  if (!lab) return false;
  const reader = records.read(lab.id);
  const lot = await reader.maybe(tables.Lot, { key: bundle.lot.lot });
  return lot !== undefined && (await reader.find(tables.Evaluation, { lotId: lot.id })).length > 0;
}

/** Keeps a lot folder: definitions, then each run in its operator's name, then the validity decisions, then the evaluation. */
export async function importLot(
  records: Records,
  store: RawStore,
  bundle: LotBundle,
  filesOf: (run: string) => SentRunFile[],
  onRun: (done: number, total: number) => void = () => {},
): Promise<ImportedLot> {
  const setUp = await labOf(records, bundle);
  const reader = records.read(setUp.labId);
  if (!(await reader.maybe(tables.Lot, { key: bundle.lot.lot })))
    await records.change(setUp, 'lot folder imported', `lot folder of ${bundle.lot.lot}`, (rows) =>
      importDefinitions(rows, bundle),
    );
  const inNameOf = async (person: string): Promise<Actor> => ({
    labId: setUp.labId,
    personId: (await reader.named(tables.Person, person)).id,
  });

  const { plan, revision } = bundle.plan;
  for (const [index, run] of bundle.runs.entries()) {
    onRun(index, bundle.runs.length);
    if (await reader.maybe(tables.Run, { key: run.run })) continue;
    const { runId } = await recordRun(records, store, await inNameOf(run.operator), run, filesOf(run.run), {
      plan: { plan, revision },
    });
    const decision = run.validity;
    if (!decision) continue;
    await records.change(await inNameOf(decision.person), 'validity decided', (rows) =>
      rows.addVersion(tables.ValidityDecision, runId, { validity: decision.validity, content: decision }),
    );
  }
  onRun(bundle.runs.length, bundle.runs.length);
  return { evaluation: await evaluateAndKeep(records, store, setUp, bundle.lot.lot), runs: bundle.runs.length };
}
