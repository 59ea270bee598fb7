import { type Reader, tables } from '@breakbook/records';
import { peopleBehind } from '../../records/read-kind.js';

/** Who reviewed each of these runs as it stands now; a run about which more was said since is not among them. */
export async function reviewersOf(reader: Reader, runIds: string[]): Promise<Map<string, string>> {
  const reviews = await reader.latestOf(tables.RunReview, runIds);
  const decisions = await reader.latestOf(tables.ValidityDecision, runIds);
  const versions = await versionsOf(reader, [...reviews.keys()]);
  const people = await peopleBehind(reader, [...reviews.values()]);
  return new Map(
    [...reviews].flatMap(([runId, { personId, runVersion, validityDecisionId }]) =>
      runVersion === versions.get(runId) && validityDecisionId === decisions.get(runId)?.id
        ? [[runId, people.get(personId) ?? '']]
        : [],
    ),
  );
}

/** How much was said of each run: what `RunRecord.version` counts for one. */
async function versionsOf(reader: Reader, runIds: string[]): Promise<Map<string, number>> {
  const counted = await reader.manager.query<{ id: string; version: string }[]>(
    `select id,
       (select count(*) from run_version where lab_id = run.lab_id and record_id = run.id)
       + (select count(*) from measurement where lab_id = run.lab_id and run_id = run.id)
       + (select count(*) from examination where lab_id = run.lab_id and record_id = run.id)
       + (select count(*) from validity_decision where lab_id = run.lab_id and record_id = run.id) as version
     from run where lab_id = $1 and id = any($2)`,
    [reader.labId, runIds],
  );
  return new Map(counted.map(({ id, version }) => [id, Number(version)]));
}
