import { type Reader, tables } from '@breakbook/records';
import type { DisposalOfSpecimen, PhotoOfSpecimen, SpecimenRecordContent, StateOfSpecimen } from '@breakbook/reports';
import { In } from 'typeorm';
import { fileName } from '../../attachments/attached-file.js';
import { nonconformitiesOf } from '../../nonconformities/of-lot.js';
import { holdsOn } from '../../specimens/holds-on.js';
import { fateOf } from '../../specimens/specimen-fate.js';

/** What is on record of a specimen beside its runs, every person by name. */
export type LifeOfSpecimen = Pick<
  SpecimenRecordContent,
  'state' | 'states' | 'photos' | 'keeping' | 'legalHolds' | 'disposal' | 'nonconformities'
>;

export async function lifeOfSpecimen(reader: Reader, specimen: tables.Specimen): Promise<LifeOfSpecimen> {
  const runs = await reader.find(tables.Run, { specimenId: specimen.id }, { number: 'asc' });
  const keeping = await keepingOf(reader, specimen);
  const disposal = await disposalOf(reader, specimen.id);
  return {
    state: (await fateOf(reader, specimen.id)).state,
    states: await statesOf(reader, specimen, runs),
    photos: await photosOf(reader, specimen, runs),
    ...(keeping ? { keeping } : {}),
    legalHolds: await legalHoldsOf(reader, specimen.id),
    ...(disposal ? { disposal } : {}),
    nonconformities: (await nonconformitiesOf(reader, specimen.lotId))
      .filter(
        ({ version: { content } }) =>
          content.specimens.includes(specimen.key) || runs.some(({ key }) => content.runs.includes(key)),
      )
      .map(({ noun, version }) => ({ number: noun.number, title: version.content.title, state: version.state })),
  };
}

/** Receipt, the states that people put it in, and the run that destroyed it, in the order of time. */
async function statesOf(
  reader: Reader,
  specimen: tables.Specimen,
  runs: readonly tables.Run[],
): Promise<StateOfSpecimen[]> {
  const { content } = await reader.latest(tables.SpecimenVersion, specimen.id);
  const said = await reader.history(tables.SpecimenState, specimen.id);
  const destroyed = await destroyedIn(reader, specimen.id, runs);
  const names = await namesOf(
    reader,
    [specimen, ...said].map(({ personId }) => personId),
  );
  const states: StateOfSpecimen[] = [
    { state: 'received', at: content.receivedAt, by: names(specimen.personId) },
    ...said.map(({ state, at, personId, note }) => ({ state, at: at.toISOString(), by: names(personId), note })),
    ...(destroyed ? [destroyed] : []),
  ];
  return states.sort((one, other) => Date.parse(one.at) - Date.parse(other.at));
}

async function destroyedIn(
  reader: Reader,
  specimenId: string,
  runs: readonly tables.Run[],
): Promise<StateOfSpecimen | undefined> {
  const { destroyedIn: run } = await fateOf(reader, specimenId);
  const noun = runs.find(({ key }) => key === run);
  if (!noun) return undefined;
  const { content } = await reader.latest(tables.RunVersion, noun.id);
  const operator = await reader.named(tables.Person, content.operator);
  return {
    state: 'destroyed',
    at: content.startedAt,
    by: (await namesOf(reader, [operator.id]))(operator.id),
    run: noun.key,
  };
}

/** Photos, videos and files of it and of its runs, each by its digest. */
async function photosOf(
  reader: Reader,
  { id: specimenId }: tables.Specimen,
  runs: readonly tables.Run[],
): Promise<PhotoOfSpecimen[]> {
  const rows = [
    ...(await reader.find(tables.Attachment, { specimenId }, { number: 'asc' })),
    ...(await reader.find(tables.Attachment, { runId: In(runs.map(({ id }) => id)) }, { number: 'asc' })),
  ];
  const said = await reader.latestOf(
    tables.AttachmentVersion,
    rows.map(({ id }) => id),
  );
  const raws = await reader.find(tables.RawBytes, { id: In(rows.map(({ rawId }) => rawId)) });
  const digests = new Map(raws.map(({ id, sha256 }) => [id, sha256]));
  const names = await namesOf(
    reader,
    [...said.values()].map(({ takenById }) => takenById),
  );
  return rows
    .toSorted((one, other) => one.number - other.number)
    .flatMap((row): PhotoOfSpecimen[] => {
      const version = said.get(row.id);
      if (!version) return [];
      const run = runs.find(({ id }) => id === row.runId)?.key;
      const sha256 = digests.get(row.rawId);
      return [
        {
          ...version.content,
          name: fileName(row),
          ...(sha256 === undefined ? {} : { sha256 }),
          takenBy: names(version.takenById),
          ...(run === undefined ? {} : { run }),
        },
      ];
    });
}

async function keepingOf(reader: Reader, { id, lotId }: tables.Specimen): Promise<SpecimenRecordContent['keeping']> {
  const own = (await reader.latestOf(tables.SpecimenKeeping, [id])).get(id);
  if (own) return { until: own.until, note: own.note };
  const ofLot = (await reader.latestOf(tables.LotKeeping, [lotId])).get(lotId);
  return ofLot && { until: ofLot.remnantsUntil, note: ofLot.note };
}

async function legalHoldsOf(reader: Reader, specimenId: string): Promise<SpecimenRecordContent['legalHolds']> {
  const numbers = (await holdsOn(reader, [specimenId])).get(specimenId) ?? [];
  const holds = await reader.find(tables.LegalHold, { number: In(numbers) }, { number: 'asc' });
  return holds.map(({ number, reference }) => ({ number, reference }));
}

/** The last disposal that names it. */
async function disposalOf(reader: Reader, specimenId: string): Promise<DisposalOfSpecimen | undefined> {
  const named = await reader.find(tables.DisposalSpecimen, { specimenId });
  const disposals = await reader.find(
    tables.Disposal,
    { id: In(named.map(({ disposalId }) => disposalId)) },
    { number: 'asc' },
  );
  const last = disposals.at(-1);
  if (!last) return undefined;
  const versions = await reader.history(tables.DisposalVersion, last.id);
  const now = versions.at(-1);
  if (!now) throw new Error(`Nothing is said of disposal ${last.number}.`);
  const authorised = versions.findLast(({ state }) => state === 'authorised');
  const names = await namesOf(reader, [last.personId, ...(authorised ? [authorised.personId] : [])]);
  const { reason, how, exception } = last.content;
  return {
    number: last.number,
    state: now.state,
    reason,
    how,
    ...(exception === undefined ? {} : { exception }),
    askedBy: names(last.personId),
    ...(authorised ? { authorisedBy: names(authorised.personId) } : {}),
    ...(now.done ? { done: now.done } : {}),
  };
}

/** The names of these people as they are said now. */
async function namesOf(reader: Reader, ids: readonly string[]): Promise<(id: string) => string> {
  const said = await reader.latestOf(tables.PersonVersion, [...new Set(ids)]);
  return (id) => {
    const version = said.get(id);
    if (!version) throw new Error(`Nothing is said of person ${id}.`);
    return version.content.name;
  };
}
