import type { RunToJudge } from '@breakbook/acceptance';
import { canonicalJson, sha256 } from '@breakbook/evidence';
import type { ComparedSpecimen, ComparisonCase } from '@breakbook/lab';
import { type Reader, tables } from '@breakbook/records';
import { In } from 'typeorm';
import { keptReadings } from '../lots/kept-readings.js';
import { storedLot } from '../lots/lot-bundle.js';
import type { CaseToCompare } from '../workers/compare.js';
import type { ComparisonStanding } from './comparison-standing.js';
import { itemsOf } from './declared.js';
import { setAsideOf } from './set-aside-of.js';

/** All that a comparison rests on, from the tables as they stand, and the digest of each part. */
export interface StoredCase extends CaseToCompare {
  restsOn: tables.ComparisonBasis;
  /** Every specimen of it, its items and its reference. */
  specimens: tables.Specimen[];
}

/** Makes from the tables what a folder of a comparison makes, by the revision that was approved. */
export async function storedCase(
  reader: Reader,
  { noun, revisions, inForce }: ComparisonStanding,
): Promise<StoredCase> {
  if (!inForce) throw new Error(`Comparison ${noun.key} is approved by no revision.`);
  const [reference, alternative] = await Promise.all(
    [inForce.referenceRevisionId, inForce.alternativeRevisionId].map(async (id) =>
      id === null ? undefined : reader.one(tables.ReferenceRevision, id),
    ),
  );
  const specimens = await specimensOf(reader, inForce, [reference, alternative]);
  const ids = specimens.map(({ id }) => id);
  const custody = await reader.find(tables.CustodyEvent, { specimenId: In(ids) });
  const consents = await reader.find(tables.ComparisonConsent, { comparisonId: noun.id });
  const observations = await observationsOf(reader, noun.id);
  const setAside = await setAsideOf(reader, noun.id);
  const earlier = revisions.flatMap(({ version, decision }) =>
    decision?.decision === 'approved' && version.version < inForce.version ? version.content : [],
  );
  const given: CaseToCompare['given'] = {
    comparison: inForce.content,
    ...(earlier.length > 0 ? { earlier } : {}),
    ...(reference ? { reference: reference.content } : {}),
    ...(alternative ? { alternative: alternative.content } : {}),
    custody: custody.map(({ content }) => content),
    consents: consents.map(({ content }) => content),
    observations,
    setAside,
    specimens: await comparedSpecimens(reader, specimens),
  };
  const runs = await runsOf(reader, specimens);
  return { given, runs, specimens, restsOn: basisOf(given, runs) };
}

async function specimensOf(
  reader: Reader,
  { content }: tables.ComparisonRevision,
  references: readonly (tables.ReferenceRevision | undefined)[],
): Promise<tables.Specimen[]> {
  const revisionIds = references.flatMap((one) => one?.id ?? []);
  const units = await reader.find(tables.ReferenceUnit, { revisionId: In(revisionIds) });
  const known = await reader.find(tables.Specimen, { id: In(units.map(({ specimenId }) => specimenId)) });
  const all = [...(await itemsOf(reader, content)), ...known];
  return [...new Map(all.map((one) => [one.id, one])).values()].sort((a, b) => a.number - b.number);
}

async function comparedSpecimens(reader: Reader, specimens: readonly tables.Specimen[]): Promise<ComparedSpecimen[]> {
  const said = await reader.latestOf(
    tables.SpecimenVersion,
    specimens.map(({ id }) => id),
  );
  return specimens.flatMap(({ id }) => {
    const content = said.get(id)?.content;
    if (!content) return [];
    const { specimen, lot, serial, origin } = content;
    return { specimen, lot, origin, ...(serial === undefined ? {} : { serial }) };
  });
}

/** What is said now of each feature that was looked at. */
async function observationsOf(reader: Reader, comparisonId: string): Promise<ComparisonCase['observations']> {
  const nouns = await reader.find(tables.Observation, { comparisonId }, { number: 'asc' });
  const said = await reader.latestOf(
    tables.ObservationVersion,
    nouns.map(({ id }) => id),
  );
  return nouns.flatMap(({ id }) => said.get(id)?.content ?? []);
}

/** Each run of these specimens with all that it is judged by, from the reading that is kept of it. */
async function runsOf(reader: Reader, specimens: readonly tables.Specimen[]): Promise<CaseToCompare['runs']> {
  const wanted = new Set(specimens.map(({ key }) => key));
  const run = await reader.find(tables.Run, { specimenId: In(specimens.map(({ id }) => id)) });
  const used = new Set(run.map(({ specimenId }) => specimenId));
  const lotIds = [...new Set(specimens.flatMap(({ id, lotId }) => (used.has(id) ? lotId : [])))];
  const lots = await reader.find(tables.Lot, { id: In(lotIds) }, { number: 'asc' });
  const runs: CaseToCompare['runs'] = [];
  for (const { key: lot } of lots) {
    const stored = await storedLot(reader, lot);
    const readings = await keptReadings(reader, stored);
    const { plan, limits, methods } = stored.bundle;
    for (const run of stored.bundle.runs) {
      const reading = readings.get(run.run);
      const method = methods.find((one) => one.method === run.method && one.revision === run.methodRevision);
      if (!wanted.has(run.specimen) || !reading || !method) continue;
      const judge: RunToJudge = { plan, method, limits, reading, run };
      runs.push({ lot, judge });
    }
  }
  return runs;
}

function basisOf(given: CaseToCompare['given'], runs: CaseToCompare['runs']): tables.ComparisonBasis {
  const digest = (part: unknown) => sha256(canonicalJson(part));
  return {
    declaration: digest(given.comparison),
    ...(given.reference ? { reference: digest(given.reference) } : {}),
    ...(given.alternative ? { alternative: digest(given.alternative) } : {}),
    observations: digest(given.observations),
    custody: digest(given.custody),
    consents: digest(given.consents),
    setAside: digest(given.setAside),
    runs: runs.map(({ judge: { run, reading } }) => ({ run: run.run, sha256: digest({ run, reading }) })),
  };
}

/** What is otherwise than it was when a result was worked out, in words. */
export function changedSince(then: tables.ComparisonBasis, now: tables.ComparisonBasis): string[] {
  const parts = {
    declaration: 'what is declared',
    reference: 'the reference',
    alternative: 'the alternative',
    observations: 'observations',
    custody: 'custody',
    consents: 'consents and notices',
    setAside: 'items set aside',
  } as const;
  const changed: string[] = Object.entries(parts).flatMap(([part, words]) =>
    then[part as keyof typeof parts] === now[part as keyof typeof parts] ? [] : words,
  );
  const before = new Map(then.runs.map(({ run, sha256: digest }) => [run, digest]));
  for (const { run, sha256: digest } of now.runs) if (before.get(run) !== digest) changed.push(`run ${run}`);
  const still = new Set(now.runs.map(({ run }) => run));
  for (const { run } of then.runs) if (!still.has(run)) changed.push(`run ${run}`);
  return changed;
}
