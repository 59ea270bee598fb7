import { hasLoaded, Refusal, type Validity } from '@breakbook/lab';
import { type Rows, tables } from '@breakbook/records';
import type { RunRecord } from './run-record.js';

/**
 * A run that did not count as loading its specimen let that be run again. It is not decided to have loaded it after all
 * once that was done: a specimen would have been destroyed twice.
 */
export async function refuseReplaced(rows: Rows, { noun, run }: RunRecord, validity: Validity): Promise<void> {
  const as = (decided: Validity | undefined) =>
    hasLoaded({
      run: run.run,
      plan: '',
      planLine: run.planLine,
      validity: decided,
      partSound: run.examination?.partSound,
    });
  if (as(run.validity?.validity) || !as(validity)) return;
  await rows.lock(tables.Specimen, noun.specimenId);
  const runs = await rows.find(tables.Run, { specimenId: noun.specimenId }, { number: 'asc' });
  const later = runs.filter(({ number }) => number > noun.number);
  const decisions = await rows.latestOf(
    tables.ValidityDecision,
    later.map(({ id }) => id),
  );
  const since = later.find(({ id }) => decisions.get(id)?.validity !== 'void');
  if (!since) return;
  throw new Refusal({
    code: 'state.conflict',
    pointer: '/validity',
    found: validity,
    detail: `/validity: because run ${run.run} was ${run.validity?.validity}, its specimen ${run.specimen} was run again, in run ${since.key}. Both cannot have loaded it.`,
    action: `If run ${since.key} is the one that was recorded by mistake, have that made void first.`,
  });
}
