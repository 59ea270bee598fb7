import { type LotBundle, type Photo, Refusal, type Run } from '@breakbook/lab';
import { type Reader, type Row, type Table, tables } from '@breakbook/records';
import { type FindOptionsWhere, In } from 'typeorm';
import { asksForPhotos, photosOfRuns } from '../attachments/photos-of-runs.js';
import { DEFINITIONS } from '../proposals/definitions.js';
import { isApproved, proposedRevisions } from '../records/standing.js';
import { earlierLots } from './earlier-lots.js';

/** A lot with everything its judgement rests on, and the raw bytes each run file stands for. */
export interface StoredLot {
  bundle: LotBundle;
  /** Ids of rows that an evaluation points at. */
  ids: { lotId: string; planRevisionId: string; runs: Map<string, StoredRun> };
}

export interface StoredRun {
  runId: string;
  runVersionId: string;
  /** What was said of it as it was read; a later word is another judgement's. */
  examinationId: string | null;
  validityDecisionId: string | null;
  files: { name: string; rawId: string }[];
}

/** Makes from the tables what `readLotFolder` makes from a folder. */
export async function storedLot(reader: Reader, lotKey: string): Promise<StoredLot> {
  const lot = await reader.named(tables.Lot, lotKey);
  const lotVersion = await reader.latest(tables.LotVersion, lot.id);
  const sampling = (await reader.latestOf(tables.SamplingRecord, [lot.id])).get(lot.id);
  const specimens = await specimensOf(reader, lot.id);
  const { runs, stored, versions } = await runsOf(reader, specimens.ids);
  const planRevision = await planOf(reader, lot.productId, versions);
  const plan = planRevision.content;
  const limits = await limitsOf(reader, planRevision.id);
  const { productId } = lot;
  const earlier = await earlierLots(reader, { productId, lot: lotVersion.content, plan, limits });

  return {
    bundle: {
      lab: (await reader.latest(tables.LabVersion, reader.labId)).content,
      customer: lotVersion.customer,
      people: await peopleOf(reader),
      product: (await reader.latest(tables.ProductVersion, lot.productId)).content,
      lot: { ...lotVersion.content, ...(sampling ? { sampling: sampling.content } : {}) },
      specimens: specimens.contents,
      plan,
      limits,
      methods: await contentsById(reader, tables.MethodRevision, [
        ...(await methodIdsOf(reader, planRevision.id)),
        ...versions.map((version) => version.methodRevisionId),
      ]),
      layouts: await contentsById(
        reader,
        tables.LayoutRevision,
        versions.map((version) => version.layoutRevisionId),
      ),
      ...(await rigsOf(reader, versions)),
      runs,
      ...(earlier ? { earlier } : {}),
    },
    ids: { lotId: lot.id, planRevisionId: planRevision.id, runs: stored },
  };
}

async function specimensOf(reader: Reader, lotId: string) {
  const nouns = await reader.find(tables.Specimen, { lotId });
  const versions = await reader.latestOf(
    tables.SpecimenVersion,
    nouns.map(({ id }) => id),
  );
  return {
    ids: nouns.map(({ id }) => id),
    contents: nouns.flatMap(({ id }) => versions.get(id)?.content ?? []),
  };
}

async function runsOf(reader: Reader, specimenIds: string[]) {
  const nouns = await reader.find(tables.Run, { specimenId: In(specimenIds) });
  const ids = nouns.map(({ id }) => id);
  // One after another: within a snapshot they share one connection.
  const bodies = await reader.latestOf(tables.RunVersion, ids);
  const examinations = await reader.latestOf(tables.Examination, ids);
  const validities = await reader.latestOf(tables.ValidityDecision, ids);
  const files = await reader.find(tables.RunFile, { runId: In(ids) }, { position: 'asc' });
  const measurements = await reader.find(tables.Measurement, { runId: In(ids) });
  const asking = new Set(
    (
      await reader.find(tables.MethodRevision, {
        id: In([...new Set([...bodies.values()].map(({ methodRevisionId }) => methodRevisionId))]),
      })
    ).flatMap(({ id, content }) => (asksForPhotos(content) ? [id] : [])),
  );
  const photos = asking.size > 0 ? await photosOfRuns(reader, ids) : new Map<string, Photo[]>();
  const digests = await digestsOf(
    reader,
    files.map(({ rawId }) => rawId),
  );
  const stored = new Map<string, StoredRun>();
  const runs = nouns.flatMap((noun): Run[] => {
    const version = bodies.get(noun.id);
    if (!version) return [];
    const own = files.filter(({ runId }) => runId === noun.id);
    stored.set(noun.key, {
      runId: noun.id,
      runVersionId: version.id,
      examinationId: examinations.get(noun.id)?.id ?? null,
      validityDecisionId: validities.get(noun.id)?.id ?? null,
      files: own.map(({ name, rawId }) => ({ name, rawId })),
    });
    const examination = examinations.get(noun.id)?.content;
    const validity = validities.get(noun.id)?.content;
    return [
      {
        ...version.content,
        files: own.map(({ name, rawId }) => ({ name, sha256: digests.get(rawId) })),
        measurements: latestMeasurements(measurements.filter(({ runId }) => runId === noun.id)),
        ...(examination ? { examination } : {}),
        ...(asking.has(version.methodRevisionId) ? { photos: photos.get(noun.id) ?? [] } : {}),
        ...(validity ? { validity } : {}),
      },
    ];
  });
  return { runs, stored, versions: [...bodies.values()] };
}

async function digestsOf(reader: Reader, rawIds: string[]): Promise<Map<string, string>> {
  const rows = await reader.find(tables.RawBytes, { id: In(rawIds) });
  return new Map(rows.map(({ id, sha256 }) => [id, sha256]));
}

/** A measurement is a record of its own; what counts is its last version, in the order the first ones came. */
function latestMeasurements(versions: tables.Measurement[]): tables.Measurement['content'][] {
  const latest = new Map<string, tables.Measurement>();
  for (const one of versions)
    if (one.version >= (latest.get(one.recordId)?.version ?? 0)) latest.set(one.recordId, one);
  return [...latest.values()].map(({ content }) => content);
}

/** The plan revision the lot's runs were made under; before the first run, the last approved one of the product. */
async function planOf(reader: Reader, productId: string, versions: tables.RunVersion[]): Promise<tables.PlanRevision> {
  const lines = await reader.find(tables.PlanLine, { id: In(versions.map(({ planLineId }) => planLineId)) });
  const revisions = [...new Set(lines.map(({ planRevisionId }) => planRevisionId))].sort();
  const last = revisions.at(-1);
  if (last !== undefined) return reader.one(tables.PlanRevision, last);
  const plans = await reader.find(tables.Plan, { productId });
  const known = await proposedRevisions(
    reader,
    DEFINITIONS.plan,
    plans.map(({ id }) => id),
  );
  const latest = plans
    .map(({ id }) => known.get(id)?.findLast(isApproved)?.version)
    .findLast((one) => one !== undefined);
  if (latest) return reader.one(tables.PlanRevision, latest.id);
  throw new Refusal({
    code: 'state.conflict',
    detail: 'There is no approved plan for the product of this lot yet. Have one written and approved first.',
  });
}

export async function methodIdsOf(reader: Reader, planRevisionId: string): Promise<string[]> {
  return (await reader.find(tables.PlanLine, { planRevisionId })).map(({ methodRevisionId }) => methodRevisionId);
}

export async function limitsOf(reader: Reader, planRevisionId: string) {
  const lines = await reader.find(tables.PlanLine, { planRevisionId });
  const used = await reader.find(tables.PlanLineLimit, { planLineId: In(lines.map(({ id }) => id)) });
  return contentsById(
    reader,
    tables.LimitRevision,
    used.map(({ limitRevisionId }) => limitRevisionId),
  );
}

export async function contentsById<T extends Row & { content: unknown }>(
  reader: Reader,
  table: Table<T>,
  ids: (string | null)[],
): Promise<T['content'][]> {
  const wanted = [...new Set(ids.filter((id): id is string => id !== null))];
  const rows = await reader.find(table, { id: In(wanted) } as FindOptionsWhere<T>);
  return rows.map(({ content }) => content);
}

export async function peopleOf(reader: Reader) {
  const people = await reader.find(tables.Person, { kind: 'person' });
  const versions = await reader.latestOf(
    tables.PersonVersion,
    people.map(({ id }) => id),
  );
  return people.flatMap(({ id }) => versions.get(id)?.content ?? []);
}

async function rigsOf(reader: Reader, versions: tables.RunVersion[]) {
  const rigIds = [...new Set(versions.map(({ rigId }) => rigId).filter((id): id is string => id !== null))].sort();
  const bodies = await reader.latestOf(tables.RigVersion, rigIds);
  const placements = await reader.find(tables.SensorPlacement, { rigId: In(rigIds) });
  const inForce = await reader.latestOf(tables.SensorPlacement, [
    ...new Set(placements.map(({ recordId }) => recordId)),
  ]);
  const sensorIds = [...new Set(placements.map(({ sensorId }) => sensorId))];
  const sensors = await reader.latestOf(tables.SensorVersion, sensorIds);
  const events = await reader.find(tables.Calibration, { sensorId: In(sensorIds) });
  const calibrations = await reader.latestOf(
    tables.CalibrationVersion,
    events.map(({ id }) => id),
  );
  return {
    rigs: rigIds.flatMap((id) => {
      const body = bodies.get(id)?.content;
      const own = [...inForce.values()].filter(({ rigId }) => rigId === id).map(({ content }) => content);
      return body ? [{ ...body, placements: own }] : [];
    }),
    sensors: [...sensors.values()].map(({ content }) => content),
    calibrations: [...calibrations.values()].map(({ content }) => content),
  };
}
