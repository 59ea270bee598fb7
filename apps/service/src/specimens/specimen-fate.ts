import {
  type EarlierRun,
  hasLoaded,
  Key,
  keptFromRunBy,
  type Plan,
  Refusal,
  requireAllowed,
  requireMove,
  SPECIMEN_STATES,
  type SpecimenState,
} from '@breakbook/lab';
import { type Reader, type Rows, tables } from '@breakbook/records';
import { In } from 'typeorm';
import { z } from 'zod';
import { requireConsent } from '../custody/require-consent.js';
import { holdsOn } from './holds-on.js';

/** What became of a specimen. */
export const Fate = z.strictObject({
  state: z.enum(SPECIMEN_STATES.states),
  /** The run that destroyed it. It is destroyed once, and cannot be run again. */
  destroyedIn: Key.optional(),
  /** Runs that loaded it, the first one first: it is a survivor, run again only where a plan takes it. */
  stressedIn: z.array(Key).optional(),
  /** Legal holds in force on it or on its lot: it is neither run nor disposed of. */
  holds: z.array(z.number().int()).optional(),
});
export type Fate = z.infer<typeof Fate>;

interface Run extends EarlierRun {
  runId: string;
}

/** What became of these specimens, by their ids. */
export async function fatesOf(reader: Reader, specimenIds: string[]): Promise<Map<string, Fate>> {
  const runs = await runsOf(reader, specimenIds);
  const destructions = await reader.find(tables.Destruction, { specimenId: In(specimenIds) });
  const said = await reader.latestOf(tables.SpecimenState, specimenIds);
  const holds = await holdsOn(reader, specimenIds);
  return new Map(
    specimenIds.map((id) => {
      const own = runs.get(id) ?? [];
      const inIt = new Set(destructions.filter(({ specimenId }) => specimenId === id).map(({ runId }) => runId));
      const destroyed = own.find(({ runId, validity }) => inIt.has(runId) && validity !== 'void');
      const stressed = own.filter(hasLoaded).map(({ run }) => run);
      const state = said.get(id)?.state;
      return [
        id,
        {
          // The pieces of a broken one are retained, too.
          state: state === 'retained' || state === 'disposed' ? state : destroyed ? 'destroyed' : (state ?? 'received'),
          ...(destroyed ? { destroyedIn: destroyed.run } : {}),
          ...(!destroyed && stressed.length > 0 ? { stressedIn: stressed } : {}),
          ...(holds.has(id) ? { holds: holds.get(id) ?? [] } : {}),
        },
      ];
    }),
  );
}

export async function fateOf(reader: Reader, specimenId: string): Promise<Fate> {
  return (await fatesOf(reader, [specimenId])).get(specimenId) ?? { state: 'received' };
}

/** The runs of each specimen in the order in which they were recorded, but for one that is left out. */
async function runsOf(reader: Reader, specimenIds: string[], leftOut?: string): Promise<Map<string, Run[]>> {
  const all = await reader.find(tables.Run, { specimenId: In(specimenIds) }, { number: 'asc' });
  const runs = all.filter(({ id }) => id !== leftOut);
  const ids = runs.map(({ id }) => id);
  const bodies = await reader.latestOf(tables.RunVersion, ids);
  const decisions = await reader.latestOf(tables.ValidityDecision, ids);
  const examinations = await reader.latestOf(tables.Examination, ids);
  const lines = await reader.find(tables.PlanLine, {
    id: In([...bodies.values()].map(({ planLineId }) => planLineId)),
  });
  const plans = await reader.find(tables.PlanRevision, {
    id: In([...new Set(lines.map(({ planRevisionId }) => planRevisionId))]),
  });
  const planOf = new Map(
    lines.map(({ id, planRevisionId }) => [id, plans.find((one) => one.id === planRevisionId)?.content.plan ?? '']),
  );
  const bySpecimen = new Map<string, Run[]>();
  for (const { id: runId, key: run, specimenId } of runs) {
    const body = bodies.get(runId);
    if (!body) continue;
    const one: Run = {
      runId,
      run,
      plan: planOf.get(body.planLineId) ?? '',
      planLine: body.content.planLine,
      validity: decisions.get(runId)?.validity,
      partSound: examinations.get(runId)?.content.partSound,
    };
    bySpecimen.set(specimenId, [...(bySpecimen.get(specimenId) ?? []), one]);
  }
  return bySpecimen;
}

/** Refuses a run of a specimen that is destroyed, put away, or loaded by a run whose survivors the plan does not take. */
export async function refuseUnfit(
  reader: Reader,
  specimen: tables.Specimen,
  { plan, planLine }: { plan: Plan; planLine: string },
  own?: { runId: string; destroyed: boolean },
): Promise<void> {
  const fate = await fateOf(reader, specimen.id);
  // Where the run itself has just destroyed it, nothing else had: that was asked before.
  if (fate.destroyedIn !== undefined && !own?.destroyed)
    throw new Refusal({
      code: 'specimen.destroyed',
      detail: `Specimen ${specimen.key} was destroyed in run ${fate.destroyedIn}.`,
      action: `Have the file, kept unread, read for the right specimen, or have run ${fate.destroyedIn} made void if it was recorded by mistake.`,
    });
  if (!own?.destroyed)
    requireAllowed(SPECIMEN_STATES, 'make a run with it', fate.state, {
      thing: `specimen ${specimen.key}`,
      pointer: '/specimen',
      action: 'Check the code, or have the specimen taken out, with a note.',
    });
  if (fate.holds !== undefined)
    throw new Refusal({
      code: 'state.conflict',
      pointer: '/specimen',
      found: specimen.key,
      detail: `Specimen ${specimen.key} is on legal hold ${fate.holds.join(', ')}, so no run is made with it.`,
      action: 'Keep it as it is, and run another specimen, or have the hold lifted first.',
    });
  await requireConsent(reader, specimen, { what: specimen.key, at: new Date().toISOString(), pointer: '/specimen' });
  const earlier = (await runsOf(reader, [specimen.id], own?.runId)).get(specimen.id) ?? [];
  const by = keptFromRunBy(earlier, plan, planLine);
  if (!by) return;
  throw new Refusal({
    code: 'state.conflict',
    pointer: '/specimen',
    found: specimen.key,
    detail: `Specimen ${specimen.key} was loaded in run ${by.run} and survived it; line ${planLine} of plan ${plan.plan} rev. ${plan.revision} takes no survivors of line ${by.planLine}${by.plan === plan.plan ? '' : ` of plan ${by.plan}`}.`,
    action: `Run a specimen that no run has loaded. If run ${by.run} was recorded by mistake, have it made void first.`,
  });
}

/** Notes that a run was made with its specimen, in the order of the specimen's runs. */
export async function useSpecimen(
  rows: Rows,
  specimen: tables.Specimen,
  runId: string,
  under: { plan: Plan; planLine: string },
): Promise<void> {
  await rows.lock(tables.Specimen, specimen.id);
  const destroyed = (await rows.maybe(tables.Destruction, { runId })) !== undefined;
  await refuseUnfit(rows, specimen, under, { runId, destroyed });
  const before = (await rows.find(tables.Run, { specimenId: specimen.id }, { number: 'asc' })).findLast(
    ({ id }) => id !== runId,
  );
  await rows.add(tables.SpecimenUse, { specimenId: specimen.id, runId, afterRunId: before?.id ?? null });
}

/** A move that a person makes, and what is to be said of it: how it was conditioned, where it is kept, why it is taken out. */
export type SaidMove = 'condition' | 'make ready' | 'retain' | 'take out';

const STATE_AFTER = {
  condition: 'conditioned',
  'make ready': 'ready',
  retain: 'retained',
  'take out': 'received',
} as const satisfies Record<SaidMove, SpecimenState>;

/** Puts a specimen in another state, where the table has the move. `follows` is how often that was done before. */
export async function moveSpecimen(
  rows: Rows,
  specimen: tables.Specimen,
  { move, note }: { move: SaidMove; note: string },
  follows: number,
): Promise<void> {
  await rows.lock(tables.Specimen, specimen.id);
  const { state } = await fateOf(rows, specimen.id);
  requireMove(SPECIMEN_STATES, move, state, `specimen ${specimen.key}`);
  await rows.addVersion(tables.SpecimenState, specimen.id, { state: STATE_AFTER[move], note }, follows);
}
