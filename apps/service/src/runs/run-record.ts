import type { Limit, Method, Plan, Run, RunState } from '@breakbook/lab';
import { type Reader, tables } from '@breakbook/records';
import { In } from 'typeorm';
import { asksForPhotos, photosOfRuns } from '../attachments/photos-of-runs.js';
import { limitsOf } from '../lots/lot-bundle.js';

/** A run as its last versions say it, with the rows they stand in. */
export interface RunRecord {
  noun: tables.Run;
  /** How much has been said of the run: each correction and each decision adds one. */
  version: number;
  lot: tables.Lot;
  body: tables.RunVersion;
  run: Run;
  plan: Plan;
  method: Method;
  files: { name: string; rawId: string; size: number; sha256: string }[];
  /** Each measurement's last version. */
  measurements: tables.Measurement[];
  examination: tables.Examination | undefined;
  decision: tables.ValidityDecision | undefined;
  reading: tables.Reading;
}

export async function runRecord(reader: Reader, runKey: string): Promise<RunRecord> {
  const noun = await reader.named(tables.Run, runKey);
  const specimen = await reader.one(tables.Specimen, noun.specimenId);
  // One after another: within a change they share one connection.
  const lot = await reader.one(tables.Lot, specimen.lotId);
  const bodies = await reader.history(tables.RunVersion, noun.id);
  const files = await runFiles(reader, noun.id);
  const measured = await reader.find(tables.Measurement, { runId: noun.id });
  const examinations = await reader.history(tables.Examination, noun.id);
  const decisions = await reader.history(tables.ValidityDecision, noun.id);
  const readings = await reader.find(tables.Reading, { runId: noun.id });
  const [body, reading] = [bodies.at(-1), readings.at(-1)];
  if (!body || !reading) throw new Error(`Run ${runKey} has no ${body ? 'reading' : 'version'}.`);
  const line = await reader.one(tables.PlanLine, body.planLineId);
  const measurements = lastVersions(measured);
  const [examination, decision] = [examinations.at(-1), decisions.at(-1)];
  const method = (await reader.one(tables.MethodRevision, body.methodRevisionId)).content;
  const photos = asksForPhotos(method) ? await photosOfRuns(reader, [noun.id]) : undefined;
  const run: Run = {
    ...body.content,
    files: files.map(({ name, sha256 }) => ({ name, sha256 })),
    measurements: measurements.map(({ content }) => content),
    ...(examination ? { examination: examination.content } : {}),
    ...(photos ? { photos: photos.get(noun.id) ?? [] } : {}),
    ...(decision ? { validity: decision.content } : {}),
  };
  return {
    noun,
    version: bodies.length + measured.length + examinations.length + decisions.length,
    lot,
    body,
    run,
    plan: (await reader.one(tables.PlanRevision, line.planRevisionId)).content,
    method,
    files,
    measurements,
    examination,
    decision,
    reading,
  };
}

/** The limits a run's plan line names. */
export async function limitsOfRun(reader: Reader, { body }: RunRecord): Promise<Limit[]> {
  const line = await reader.one(tables.PlanLine, body.planLineId);
  return limitsOf(reader, line.planRevisionId);
}

/** The files of a run in their order. */
export async function runFiles(reader: Reader, runId: string): Promise<RunRecord['files']> {
  const files = await reader.find(tables.RunFile, { runId }, { position: 'asc' });
  const raws = await reader.find(tables.RawBytes, { id: In(files.map(({ rawId }) => rawId)) });
  const rawOf = new Map(raws.map((raw) => [raw.id, raw]));
  return files.flatMap(({ name, rawId }) => {
    const raw = rawOf.get(rawId);
    return raw ? [{ name, rawId, size: Number(raw.size), sha256: raw.sha256 }] : [];
  });
}

/** A measurement is a record of its own; what counts is its last version, in the order the first ones came. */
function lastVersions(versions: tables.Measurement[]): tables.Measurement[] {
  const last = new Map<string, tables.Measurement>();
  for (const one of versions) if (one.version > (last.get(one.recordId)?.version ?? 0)) last.set(one.recordId, one);
  return [...last.values()];
}

/** In which state of the table of states the run is. */
export function stateOf({ decision }: Pick<RunRecord, 'decision'>): RunState {
  return decision?.validity ?? 'not decided';
}
