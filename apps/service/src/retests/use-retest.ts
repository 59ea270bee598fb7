import { Refusal } from '@breakbook/lab';
import { type Rows, tables } from '@breakbook/records';
import { In } from 'typeorm';

/**
 * A run of a plan line that has its valid runs already is one too many: it is made only by an authorised retest, and uses
 * up one of its places. A specimen that was not drawn at random makes no claim, and may be run without.
 */
export async function useRetest(rows: Rows, runId: string): Promise<void> {
  const run = await rows.one(tables.Run, runId);
  const { planLineId } = await rows.latest(tables.RunVersion, runId);
  const specimen = await rows.one(tables.Specimen, run.specimenId);
  const { content } = await rows.latest(tables.SpecimenVersion, specimen.id);
  if (content.origin !== 'drawn at random') return;
  const line = await rows.one(tables.PlanLine, planLineId);
  const plan = (await rows.one(tables.PlanRevision, line.planRevisionId)).content;
  const planned = plan.lines.find((one) => one.line === line.key)?.specimens ?? 0;
  if ((await validRuns(rows, specimen.lotId, line.id, runId)) < planned) return;

  await rows.lock(tables.Retest, `${specimen.lotId} ${line.id}`);
  const retests = await rows.find(tables.Retest, { lotId: specimen.lotId, planLineId: line.id }, { number: 'asc' });
  const uses = await rows.find(tables.RetestUse, { retestId: In(retests.map(({ id }) => id)) });
  for (const retest of retests) {
    const used = uses.filter(({ retestId }) => retestId === retest.id).length;
    if (used >= retest.runs) continue;
    await rows.add(tables.RetestUse, { retestId: retest.id, runId, place: used + 1 });
    return;
  }
  throw new Refusal({
    code: 'state.conflict',
    pointer: '/planLine',
    found: line.key,
    detail: `Line ${line.key} of plan ${plan.plan} rev. ${plan.revision} asks for ${planned} valid runs, and this lot has them. Looking again until it holds would accept bad lots.`,
    action:
      'Where there is a ground, have a retest authorised by somebody who recorded nothing of the lot, and have the file, kept unread, read again.',
  });
}

/** Valid runs of this line on specimens of this lot drawn at random, but for this one. */
async function validRuns(rows: Rows, lotId: string, planLineId: string, runId: string): Promise<number> {
  const [counted] = await rows.manager.query<{ runs: string }[]>(
    `select count(distinct run.specimen_id) as runs
     from run
     join specimen on specimen.lab_id = run.lab_id and specimen.id = run.specimen_id and specimen.lot_id = $2
     join lateral (
       select plan_line_id from run_version where lab_id = run.lab_id and record_id = run.id order by version desc limit 1
     ) body on body.plan_line_id = $3
     join lateral (
       select validity from validity_decision where lab_id = run.lab_id and record_id = run.id order by version desc limit 1
     ) decision on decision.validity in ('valid', 'valid with deviation')
     join lateral (
       select content from specimen_version where lab_id = run.lab_id and record_id = specimen.id order by version desc limit 1
     ) said on said.content ->> 'origin' = 'drawn at random'
     where run.lab_id = $1 and run.id <> $4`,
    [rows.labId, lotId, planLineId, runId],
  );
  return Number(counted?.runs ?? 0);
}
