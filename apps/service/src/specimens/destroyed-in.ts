import { type Reader, tables } from '@breakbook/records';
import { In } from 'typeorm';

/** The run that destroyed each of these specimens, by their names; a run made void destroyed none. */
export async function destroyedIn(reader: Reader, keys: string[]): Promise<Map<string, string>> {
  const specimens = await reader.find(tables.Specimen, { key: In(keys) });
  const destructions = await reader.find(tables.Destruction, { specimenId: In(specimens.map(({ id }) => id)) });
  const runIds = destructions.map(({ runId }) => runId);
  const [runs, decisions] = await Promise.all([
    reader.find(tables.Run, { id: In(runIds) }),
    reader.latestOf(tables.ValidityDecision, runIds),
  ]);
  const runKeys = new Map(runs.map(({ id, key }) => [id, key]));
  const byId = new Map(specimens.map(({ id, key }) => [id, key]));
  return new Map(
    destructions
      .filter(({ runId }) => decisions.get(runId)?.validity !== 'void')
      .map(({ specimenId, runId }) => [byId.get(specimenId) ?? '', runKeys.get(runId) ?? '']),
  );
}
