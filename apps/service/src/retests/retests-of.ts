import { Instant, Key, NewRetest } from '@breakbook/lab';
import { type Reader, tables } from '@breakbook/records';
import { In } from 'typeorm';
import { z } from 'zod';
import { peopleBehind } from '../records/read-kind.js';

/** An authorised retest, and the runs that were made by it. */
export const RetestAnswer = NewRetest.extend({
  number: z.number().int().min(1),
  used: z.array(Key),
  by: Key,
  at: Instant,
});
export type RetestAnswer = z.infer<typeof RetestAnswer>;

/** The retests authorised for a lot, by number. */
export async function retestsOf(reader: Reader, lotId: string): Promise<RetestAnswer[]> {
  const retests = await reader.find(tables.Retest, { lotId }, { number: 'asc' });
  const lines = await reader.find(tables.PlanLine, { id: In(retests.map(({ planLineId }) => planLineId)) });
  const uses = await reader.find(tables.RetestUse, { retestId: In(retests.map(({ id }) => id)) }, { place: 'asc' });
  const runs = await reader.find(tables.Run, { id: In(uses.map(({ runId }) => runId)) });
  const people = await peopleBehind(reader, retests);
  const lineOf = new Map(lines.map(({ id, key }) => [id, key]));
  const keyOf = new Map(runs.map(({ id, key }) => [id, key]));
  return retests.map(({ id, number, planLineId, runs: allowed, ground, reason, personId, at }) => ({
    number,
    line: lineOf.get(planLineId) ?? '',
    runs: allowed,
    ground,
    reason,
    used: uses.filter(({ retestId }) => retestId === id).flatMap(({ runId }) => keyOf.get(runId) ?? []),
    by: people.get(personId) ?? '',
    at: at.toISOString(),
  }));
}
