import { type Method, type Plan, Refusal, type Rig, type Run } from '@breakbook/lab';
import {
  type Actor,
  closeAsRead,
  destroySpecimen,
  keepUnread,
  newId,
  type PreparedRaw,
  prepareRaw,
  type RawStore,
  type Reader,
  type Records,
  type Rows,
  rawFromBytes,
  tables,
} from '@breakbook/records';
import { type ReadRun, readRun } from '@breakbook/signals';
import { revisionOf } from '../records/revisions.js';

export interface SentRunFile {
  name: string;
  bytes: Uint8Array;
}

export interface RecordedRun {
  runId: string;
  reading: ReadRun['reading'];
}

/** What a run was made under, as rows and as content. */
interface Context {
  specimen: tables.Specimen;
  planLine: tables.PlanLine;
  methodRevision: tables.MethodRevision;
  method: Method;
  rig?: { id: string; content: Rig };
  layoutRevision?: tables.LayoutRevision;
  calibrations: tables.CalibrationVersion[];
  placements: tables.SensorPlacement[];
  product: tables.ProductVersion;
}

/**
 * Keeps a run: its files bit for bit beside what they led to. Files are read before the transaction opens, since a
 * long one must hold no lock. Where they are refused their bytes are kept unread and nothing else changes.
 */
export async function recordRun(
  records: Records,
  store: RawStore,
  by: Actor,
  run: Run,
  files: SentRunFile[],
  options: { plan: { plan: string; revision: number }; unreadFileId?: string },
): Promise<RecordedRun> {
  const sent = await Promise.all(
    files.map(async ({ name, bytes }) => ({ name, bytes, raw: await prepareRaw(rawFromBytes(bytes)) })),
  );
  const reader = records.read(by.labId);
  try {
    const context = await contextOf(reader, run, options.plan);
    await refuseKnownBytes(
      reader,
      sent.map(({ raw }) => raw),
    );
    await refuseDestroyed(reader, context.specimen);
    const { reading } = readRun({
      method: context.method,
      ...(context.layoutRevision ? { layout: context.layoutRevision.content } : {}),
      ...(context.rig ? { rig: context.rig.content } : {}),
      calibrations: context.calibrations.map(({ content }) => content),
      files: sent.map(({ name, bytes, raw }) => ({ name, bytes, sha256: raw.sha256 })),
      run,
      markedMaximum: context.product.content.markedMaximum,
    });
    return await records.change(by, 'run recorded', (rows) =>
      writeRun(rows, store, run, sent, context, reading, options.unreadFileId),
    );
  } catch (error) {
    if (error instanceof Refusal && sent.length > 0 && isKeptUnread(error)) await keep(records, store, by, sent, error);
    throw error;
  }
}

async function contextOf(reader: Reader, run: Run, planRef: { plan: string; revision: number }): Promise<Context> {
  const specimen = await inBody(reader.named(tables.Specimen, run.specimen), '/specimen', `specimen ${run.specimen}`);
  const plan = await inBody(reader.named(tables.Plan, planRef.plan), '/plan', `plan ${planRef.plan}`);
  const planRevision = await revisionOf<tables.PlanRevision & { content: Plan }>(
    reader,
    tables.PlanRevision,
    plan.id,
    planRef.revision,
  );
  const planLine = await inBody(
    found(reader.maybe(tables.PlanLine, { planRevisionId: planRevision.id, key: run.planLine })),
    '/planLine',
    `line ${run.planLine} of plan ${planRef.plan} rev. ${planRef.revision}`,
  );
  const lot = await reader.one(tables.Lot, specimen.lotId);
  if (lot.productId !== plan.productId)
    throw new Refusal({
      code: 'meta.unknown',
      pointer: '/specimen',
      found: run.specimen,
      detail: `Specimen ${run.specimen} is of lot ${lot.key}, and plan ${planRef.plan} is for another product. Check the specimen and the plan.`,
    });
  const methodRevision = await reader.one(tables.MethodRevision, planLine.methodRevisionId);
  const rigParts = run.rig === undefined ? {} : await rigOf(reader, run.rig, run.layoutRevision);
  return {
    specimen,
    planLine,
    methodRevision,
    method: methodRevision.content,
    calibrations: [],
    placements: [],
    product: await reader.latest(tables.ProductVersion, lot.productId),
    ...rigParts,
  };
}

async function rigOf(reader: Reader, key: string, layoutRevision: number | undefined) {
  const noun = await inBody(reader.named(tables.Rig, key), '/rig', `rig ${key}`);
  const body = await reader.latest(tables.RigVersion, noun.id);
  const all = await reader.find(tables.SensorPlacement, { rigId: noun.id });
  const placements = [
    ...(await reader.latestOf(tables.SensorPlacement, [...new Set(all.map(({ recordId }) => recordId))])).values(),
  ];
  const events = (
    await Promise.all(
      [...new Set(placements.map(({ sensorId }) => sensorId))].map((sensorId) =>
        reader.find(tables.Calibration, { sensorId }),
      ),
    )
  ).flat();
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
  const revision = await revisionOf(reader, tables.LayoutRevision, layout.id, layoutRevision);
  return { rig, placements, calibrations, layoutRevision: revision };
}

/** In a body, what is not there is a fault of the body, not of the address. */
async function inBody<T>(lookUp: Promise<T>, pointer: string, what: string): Promise<T> {
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

async function refuseKnownBytes(reader: Reader, raws: PreparedRaw[]): Promise<void> {
  for (const { sha256 } of raws) {
    const raw = await reader.maybe(tables.RawBytes, { sha256 });
    const file = raw && (await reader.find(tables.RunFile, { rawId: raw.id }))[0];
    if (!file) continue;
    const run = await reader.one(tables.Run, file.runId);
    throw new Refusal({
      code: 'run.duplicate',
      file: file.name,
      detail: `These bytes are kept already as ${file.name} of run ${run.key}. Nothing was added; check which file belongs to this run.`,
    });
  }
}

async function refuseDestroyed(reader: Reader, specimen: tables.Specimen): Promise<void> {
  const [destruction] = (await reader.find(tables.Destruction, { specimenId: specimen.id })).slice(-1);
  if (!destruction) return;
  const decision = (await reader.latestOf(tables.ValidityDecision, [destruction.runId])).get(destruction.runId);
  if (decision?.validity === 'void') return;
  const run = await reader.one(tables.Run, destruction.runId);
  throw new Refusal({
    code: 'specimen.destroyed',
    detail: `Specimen ${specimen.key} was destroyed in run ${run.key}.`,
    action: `Have the file, kept unread, read for the right specimen, or have run ${run.key} made void if it was recorded by mistake.`,
  });
}

async function writeRun(
  rows: Rows,
  store: RawStore,
  run: Run,
  sent: { name: string; raw: PreparedRaw }[],
  context: Context,
  reading: ReadRun['reading'],
  unreadFileId: string | undefined,
): Promise<RecordedRun> {
  const { files: _files, measurements, examination, validity: _validity, ...body } = run;
  const noun = await rows.add(tables.Run, { key: run.run, specimenId: context.specimen.id });
  const operator = await rows.named(tables.Person, run.operator);
  const version = await rows.addVersion(tables.RunVersion, noun.id, {
    planLineId: context.planLine.id,
    methodRevisionId: context.methodRevision.id,
    rigId: context.rig?.id ?? null,
    layoutRevisionId: context.layoutRevision?.id ?? null,
    operatorId: operator.id,
    startedAt: new Date(run.startedAt),
    content: body,
  });
  await writeChannels(rows, version.id, context, reading);
  const passage = await rows.add(tables.Passage, {
    runId: noun.id,
    position: 1,
    kind: 'whole run',
    startedAt: new Date(run.startedAt),
  });
  for (const [index, { name, raw }] of sent.entries()) {
    const kept = await store.keep(rows, raw);
    await rows.add(tables.RunFile, {
      runId: noun.id,
      passageId: passage.id,
      position: index + 1,
      name,
      rawId: kept.id,
    });
  }
  for (const content of measurements) await rows.addVersion(tables.Measurement, newId(), { runId: noun.id, content });
  if (examination) await rows.addVersion(tables.Examination, noun.id, { content: examination });
  if (destroys(run)) await destroySpecimen(rows, context.specimen.id, noun.id);
  await rows.add(tables.Reading, {
    runId: noun.id,
    runVersionId: version.id,
    methodRevisionId: context.methodRevision.id,
    layoutRevisionId: context.layoutRevision?.id ?? null,
    software: reading.software,
    content: reading,
  });
  if (unreadFileId !== undefined) await closeAsRead(rows, unreadFileId, noun.id);
  return { runId: noun.id, reading };
}

/** Which sensor stood behind each channel, so that "who is touched by this sensor?" is one query later. */
async function writeChannels(
  rows: Rows,
  runVersionId: string,
  context: Context,
  reading: ReadRun['reading'],
): Promise<void> {
  for (const { channel, sensor, calibration } of reading.calibrations) {
    const placement = context.placements.find(
      (one) => one.content.channel === channel && one.content.sensor === sensor,
    );
    if (!placement) continue;
    const event = context.calibrations.find((one) => one.content.calibration === calibration);
    await rows.add(tables.RunChannel, {
      runVersionId,
      channel,
      sensorPlacementId: placement.id,
      calibrationVersionId: event?.id ?? null,
    });
  }
}

/** Something broke and the part was not found sound: it cannot be run again. */
export function destroys(run: Run): boolean {
  return run.examination?.endReason === 'something broke' && run.examination.partSound !== 'sound';
}

/** Refused for content, or left without a run though readable: the bytes are worth keeping. */
function isKeptUnread(refusal: Refusal): boolean {
  const { code } = refusal;
  if (code === 'run.duplicate' || code === 'file.empty' || code === 'file.too-large') return false;
  if (code === 'file.type-mismatch' || code === 'file.compressed' || code === 'file.name-invalid') return false;
  return (
    /^(file|csv|header|unit|meta|number|time|run)\./.test(code) ||
    code === 'specimen.destroyed' ||
    code === 'state.conflict'
  );
}

async function keep(
  records: Records,
  store: RawStore,
  by: Actor,
  sent: { name: string; raw: PreparedRaw }[],
  refusal: Refusal,
): Promise<void> {
  const kept = await keepUnread(
    records,
    store,
    by,
    sent.map(({ name, raw }) => ({ name, bytes: raw })),
    refusal,
  );
  if (kept.stored === 'unread') {
    refusal.stored = { stored: 'unread', unreadFileId: kept.unreadFileId };
    return;
  }
  refusal.problems.push(...kept.refusal.problems);
  refusal.stored = { stored: false };
}
