import { EndReason, Instant, InvalidReason, Key, PlanRef, Validity } from '@breakbook/lab';
import { type Reader, tables } from '@breakbook/records';
import { type FindOptionsWhere, In } from 'typeorm';
import { z } from 'zod';
import type { PageOf } from '../records/kept.js';
import { nextPlace, PAGING, pageAsked } from '../records/paging.js';
import { peopleBehind } from '../records/read-kind.js';
import { within } from '../records/within.js';

export const RunsAsked = z.strictObject({ ...PAGING, lot: Key.optional(), specimen: Key.optional() });
export type RunsAsked = z.infer<typeof RunsAsked>;

/** A run in a list: who made it of what, how it ended, how its validity stands. Of limits and verdicts nothing. */
export const RunInList = z.strictObject({
  run: Key,
  number: z.number().int().min(1),
  lot: Key,
  specimen: Key,
  plan: PlanRef,
  planLine: Key,
  rig: Key.optional(),
  operator: Key,
  recordedBy: Key,
  startedAt: Instant,
  endReason: EndReason.optional(),
  validity: z.union([Validity, z.literal('not decided')]),
  invalidReason: InvalidReason.optional(),
});
export type RunInList = z.infer<typeof RunInList>;

/** Runs by their short numbers; of one lot or one specimen where it is named. */
export async function runPage(reader: Reader, { lot, specimen, ...paging }: RunsAsked): Promise<PageOf<RunInList>> {
  const page = pageAsked(paging, 'number' as const);
  const { rows, more } = await reader.page(tables.Run, await whichRuns(reader, lot, specimen), page);
  return { items: await inList(reader, rows), next: nextPlace(rows.at(-1)?.number, more) };
}

async function whichRuns(reader: Reader, lot?: string, specimen?: string): Promise<FindOptionsWhere<tables.Run>> {
  const ofSpecimen = await within<tables.Run, tables.Specimen>(reader, tables.Specimen, 'specimen', specimen);
  if (lot === undefined) return ofSpecimen;
  const ofLot = await within<tables.Specimen, tables.Lot>(reader, tables.Lot, 'lot', lot);
  const specimens = await reader.find(tables.Specimen, {
    ...ofLot,
    ...(specimen === undefined ? {} : { key: specimen }),
  });
  return { specimenId: In(specimens.map(({ id }) => id)) };
}

async function inList(reader: Reader, runs: tables.Run[]): Promise<RunInList[]> {
  const ids = runs.map(({ id }) => id);
  const [bodies, examinations, decisions, people, specimens] = await Promise.all([
    reader.latestOf(tables.RunVersion, ids),
    reader.latestOf(tables.Examination, ids),
    reader.latestOf(tables.ValidityDecision, ids),
    peopleBehind(reader, runs),
    reader.find(tables.Specimen, { id: In([...new Set(runs.map(({ specimenId }) => specimenId))]) }),
  ]);
  const specimenOf = new Map(specimens.map((one) => [one.id, one]));
  const lots = await reader.find(tables.Lot, { id: In([...new Set(specimens.map(({ lotId }) => lotId))]) });
  const lotOf = new Map(lots.map(({ id, key }) => [id, key]));
  const planOf = await plansBehind(reader, [...bodies.values()]);
  return runs.flatMap((run) => {
    const [version, specimen] = [bodies.get(run.id), specimenOf.get(run.specimenId)];
    const plan = version && planOf.get(version.planLineId);
    if (!plan || !specimen) return [];
    const body = version.content;
    const [examination, decision] = [examinations.get(run.id)?.content, decisions.get(run.id)?.content];
    return [
      {
        run: run.key,
        number: run.number,
        lot: lotOf.get(specimen.lotId) ?? '',
        specimen: specimen.key,
        plan,
        planLine: body.planLine,
        ...(body.rig === undefined ? {} : { rig: body.rig }),
        operator: body.operator,
        recordedBy: people.get(run.personId) ?? '',
        startedAt: body.startedAt,
        ...(examination ? { endReason: examination.endReason } : {}),
        validity: decision?.validity ?? 'not decided',
        ...(decision?.reason === undefined ? {} : { invalidReason: decision.reason }),
      },
    ];
  });
}

/** The plan revision of each plan line that runs were made under. */
async function plansBehind(
  reader: Reader,
  versions: tables.RunVersion[],
): Promise<Map<string, z.infer<typeof PlanRef>>> {
  const lines = await reader.find(tables.PlanLine, { id: In([...new Set(versions.map((one) => one.planLineId))]) });
  const revisions = await reader.find(tables.PlanRevision, {
    id: In([...new Set(lines.map((one) => one.planRevisionId))]),
  });
  const refOf = new Map(revisions.map(({ id, content: { plan, revision } }) => [id, { plan, revision }]));
  return new Map(
    lines.flatMap(({ id, planRevisionId }) => {
      const ref = refOf.get(planRevisionId);
      return ref ? [[id, ref] as const] : [];
    }),
  );
}
