import { destroysSpecimen, type Reading, type Run, type RunPassage } from '@breakbook/lab';
import {
  closeAsRead,
  destroySpecimen,
  newId,
  type PreparedRaw,
  type RawStore,
  type Rows,
  type SentPart,
  tables,
} from '@breakbook/records';
import { requireOpen } from '../lots/lot-closing.js';
import { useSpecimen } from '../specimens/specimen-fate.js';
import { refuseKnownBytes } from './known-bytes.js';
import type { RunContext } from './run-context.js';

/** A run read and ready to be kept. */
export interface RunToWrite {
  run: Omit<Run, 'files' | 'validity'>;
  parts: SentPart[];
  context: RunContext;
  reading: Reading;
  /** The unread file whose bytes these are. */
  unreadFileId: string | undefined;
}

export interface WrittenRun {
  runId: string;
  number: number;
  destroyed: boolean;
}

/** The rows of a run, all in one change. */
export async function writeRun(rows: Rows, store: RawStore, written: RunToWrite): Promise<WrittenRun> {
  const { run, parts, context, reading, unreadFileId } = written;
  // Bytes first: from the short number on, every other run of the lab waits for this one.
  const raws = await keepBytes(rows, store, parts);
  // Looked at again while they are held: the same bytes may have come twice in the same moment.
  await refuseKnownBytes(rows, parts);
  await requireOpen(rows, context.lot, 'record a run', '/specimen');
  const { measurements, examination, photos: _, ...body } = run;
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
  const passageOf = await writePassages(rows, noun.id, run);
  for (const [index, { name }] of parts.entries())
    await rows.add(tables.RunFile, {
      runId: noun.id,
      passageId: passageOf(name),
      position: index + 1,
      name,
      rawId: raws[index] as string,
    });
  for (const content of measurements) await rows.addVersion(tables.Measurement, newId(), { runId: noun.id, content });
  if (examination) await rows.addVersion(tables.Examination, noun.id, { content: examination });
  const destroyed = destroysSpecimen(examination);
  if (destroyed) await destroySpecimen(rows, context.specimen.id, noun.id);
  await useSpecimen(rows, context.specimen, noun.id, { plan: context.planRevision.content, planLine: run.planLine });
  await writeReading(rows, noun.id, version, reading);
  if (unreadFileId !== undefined) await closeAsRead(rows, unreadFileId, noun.id);
  return { runId: noun.id, number: noun.number, destroyed };
}

export function writeReading(
  rows: Rows,
  runId: string,
  version: tables.RunVersion,
  reading: Reading,
): Promise<tables.Reading> {
  return rows.add(tables.Reading, {
    runId,
    runVersionId: version.id,
    methodRevisionId: version.methodRevisionId,
    layoutRevisionId: version.layoutRevisionId,
    software: reading.software,
    content: reading,
  });
}

/** Ids of the kept bytes, part by part. Kept in the order of their digests, so that two uploads never wait crosswise. */
async function keepBytes(rows: Rows, store: RawStore, parts: SentPart[]): Promise<string[]> {
  const ids = new Map<PreparedRaw, string>();
  const inOrder = parts.map(({ bytes }) => bytes).sort((a, b) => (a.sha256 < b.sha256 ? -1 : 1));
  for (const bytes of inOrder) ids.set(bytes, (await store.keep(rows, bytes)).id);
  return parts.map(({ bytes }) => ids.get(bytes) as string);
}

/** Which sensor stood behind each channel, so that "who is touched by this sensor?" is one query later. */
export async function writeChannels(
  rows: Rows,
  runVersionId: string,
  context: RunContext,
  reading: Reading,
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

/** The run's loadings; answers which of them a file belongs to, if to one alone. */
async function writePassages(
  rows: Rows,
  runId: string,
  run: Pick<Run, 'passages' | 'startedAt'>,
): Promise<(file: string) => string | null> {
  const add = (position: number, kind: tables.Passage['kind'], startedAt: string) =>
    rows.add(tables.Passage, { runId, position, kind, startedAt: new Date(startedAt) });
  const passages = run.passages ?? [];
  if (passages.length === 0) {
    const whole = await add(1, 'whole run', run.startedAt);
    return () => whole.id;
  }
  const added: { passage: RunPassage; id: string }[] = [];
  for (const passage of passages)
    added.push({ passage, id: (await add(passage.passage, passage.kind, passage.startedAt)).id });
  return (file) => {
    const own = added.filter(({ passage }) => passage.file === file);
    return own.length === 1 ? (own[0]?.id ?? null) : null;
  };
}
