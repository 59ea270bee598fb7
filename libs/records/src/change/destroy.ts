import { Refusal } from '@breakbook/lab';
import { Destruction, Run, Specimen, ValidityDecision } from '../entities/index.js';
import type { Rows } from './rows.js';

/**
 * Notes that a run destroyed its specimen, which happens once. Where the run before was made void, because it was
 * recorded by mistake, the specimen was not destroyed in it, and the row names the decision that says so.
 */
export async function destroySpecimen(rows: Rows, specimenId: string, runId: string): Promise<Destruction> {
  const specimen = await rows.oneLocked(Specimen, specimenId);
  const before = (await rows.find(Destruction, { specimenId })).at(-1);
  if (before === undefined) return rows.add(Destruction, { specimenId, runId, afterVoidId: null });

  const decision = (await rows.latestOf(ValidityDecision, [before.runId])).get(before.runId);
  if (decision?.validity === 'void') {
    return rows.add(Destruction, { specimenId, runId, afterVoidId: decision.id });
  }
  const run = await rows.one(Run, before.runId);
  throw new Refusal({
    code: 'specimen.destroyed',
    detail: `Specimen ${specimen.key} was destroyed in run ${run.key}.`,
    action:
      'Have the file, kept unread, read for the right specimen, ' +
      `or have run ${run.key} made void if it was recorded by mistake.`,
  });
}
