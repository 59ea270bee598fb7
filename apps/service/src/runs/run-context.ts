import { type Method, Refusal, type Rig } from '@breakbook/lab';
import { type Reader, tables } from '@breakbook/records';
import { In } from 'typeorm';
import { revisionOf } from '../records/revisions.js';

/** What names the records a run was made under. */
export interface MadeUnder {
  specimen: string;
  planLine: string;
  plan: { plan: string; revision: number };
  rig?: string | undefined;
  layoutRevision?: number | undefined;
}

/** What a run was made under, as rows and as content. */
export interface RunContext {
  specimen: tables.Specimen;
  lot: tables.Lot;
  planRevision: tables.PlanRevision;
  planLine: tables.PlanLine;
  methodRevision: tables.MethodRevision;
  method: Method;
  product: tables.ProductVersion;
  rig?: { id: string; content: Rig };
  layoutRevision?: tables.LayoutRevision;
  calibrations: tables.CalibrationVersion[];
  placements: tables.SensorPlacement[];
}

/** Finds everything a run rests on; refused where the run names what is not there. */
export async function runContext(reader: Reader, run: MadeUnder): Promise<RunContext> {
  const { plan: ref } = run;
  const specimen = await inBody(reader.named(tables.Specimen, run.specimen), '/specimen', `specimen ${run.specimen}`);
  const plan = await inBody(reader.named(tables.Plan, ref.plan), '/plan', `plan ${ref.plan}`);
  const planRevision = await inBody(
    revisionOf(reader, tables.PlanRevision, plan.id, ref.revision),
    '/plan/revision',
    `revision ${ref.revision} of plan ${ref.plan}`,
  );
  const planLine = await inBody(
    found(reader.maybe(tables.PlanLine, { planRevisionId: planRevision.id, key: run.planLine })),
    '/planLine',
    `line ${run.planLine} of plan ${ref.plan} rev. ${ref.revision}`,
  );
  const lot = await reader.one(tables.Lot, specimen.lotId);
  if (lot.productId !== plan.productId)
    throw new Refusal({
      code: 'meta.unknown',
      pointer: '/specimen',
      found: run.specimen,
      detail: `Specimen ${run.specimen} is of lot ${lot.key}, and plan ${ref.plan} is for another product. Check the specimen and the plan.`,
    });
  const methodRevision = await reader.one(tables.MethodRevision, planLine.methodRevisionId);
  return {
    specimen,
    lot,
    planRevision,
    planLine,
    methodRevision,
    method: methodRevision.content,
    product: await reader.latest(tables.ProductVersion, lot.productId),
    calibrations: [],
    placements: [],
    ...(run.rig === undefined ? {} : await rigOf(reader, run.rig, run.layoutRevision)),
  };
}

async function rigOf(reader: Reader, key: string, layoutRevision: number | undefined) {
  const noun = await inBody(reader.named(tables.Rig, key), '/rig', `rig ${key}`);
  const body = await reader.latest(tables.RigVersion, noun.id);
  const all = await reader.find(tables.SensorPlacement, { rigId: noun.id });
  const placements = [
    ...(await reader.latestOf(tables.SensorPlacement, [...new Set(all.map(({ recordId }) => recordId))])).values(),
  ];
  const events = await reader.find(tables.Calibration, {
    sensorId: In([...new Set(placements.map(({ sensorId }) => sensorId))]),
  });
  const calibrations = [
    ...(
      await reader.latestOf(
        tables.CalibrationVersion,
        events.map(({ id }) => id),
      )
    ).values(),
  ];
  const content: Rig = { ...body.content, placements: placements.map((one) => one.content) };
  const rig = { id: noun.id, content };
  if (layoutRevision === undefined) return { rig, placements, calibrations };

  const [layout] = await reader.find(tables.Layout, { rigId: noun.id });
  if (!layout)
    throw new Refusal({
      code: 'body.not-found',
      pointer: '/layoutRevision',
      detail: `Rig ${key} has no file layout yet. Have one defined.`,
    });
  const revision = await inBody(
    revisionOf(reader, tables.LayoutRevision, layout.id, layoutRevision),
    '/layoutRevision',
    `revision ${layoutRevision} of the layout of rig ${key}`,
  );
  return { rig, placements, calibrations, layoutRevision: revision };
}

/** In a body, what is not there is a fault of the body, not of the address. */
export async function inBody<T>(lookUp: Promise<T>, pointer: string, what: string): Promise<T> {
  try {
    return await lookUp;
  } catch (error) {
    if (!(error instanceof Refusal) || error.code !== 'request.not-found') throw error;
    throw new Refusal({
      code: 'body.not-found',
      pointer,
      detail: `${pointer} names ${what}, which is not in this lab. Check the name, or have it added first.`,
    });
  }
}

async function found<T>(lookUp: Promise<T | undefined>): Promise<T> {
  const row = await lookUp;
  if (row === undefined) throw new Refusal({ code: 'request.not-found', detail: 'not there' });
  return row;
}
