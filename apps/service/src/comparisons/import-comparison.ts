import type { Comparison, ComparisonDocument, Reference } from '@breakbook/lab';
import { type Reader, type Records, type Rows, tables } from '@breakbook/records';
import { In } from 'typeorm';
import { Names } from '../records/names.js';
import { keep } from '../records/write-kind.js';
import { REFERENCE } from '../references/reference-kind.js';
import { SET_UP } from '../sign-in/the-machine.js';
import { digestOfDeclared } from './comparison-standing.js';
import { addCompared, columnsOf, itemsOf } from './declared.js';

/**
 * Keeps what a comparison folder says, whose lots are kept already: the reference, what was declared, custody, consents,
 * what was seen and what is set aside, each in the name of whoever the folder names for it. The import counts as the
 * approval. When conclusions were locked is not taken over: a conclusion is signed over a result of this lab's own records.
 *
 * What is kept already is left as it is, so that an import that was killed half way is made whole by the next. Says whether
 * anything was added.
 */
export async function importComparison(
  records: Records,
  labId: string,
  document: ComparisonDocument,
): Promise<boolean> {
  const reader = records.read(labId);
  const { comparison, earlier = [], reference, alternative } = document;
  let added = false;
  const inNameOf = async <T>(person: string, action: string, work: (rows: Rows) => Promise<T>): Promise<T> => {
    added = true;
    const by = { labId, personId: (await reader.named(tables.Person, person)).id };
    return records.change(by, action, `comparison folder of ${comparison.comparison}`, work);
  };

  for (const one of [reference, alternative])
    if (one && !(await isReferenceKept(reader, one)))
      await inNameOf(one.chosenBy, 'reference frozen', (rows) => keep(rows, REFERENCE, one));
  for (const one of [...earlier, comparison]) {
    const revision =
      (await keptRevision(reader, one)) ??
      (await inNameOf(one.declaredBy, 'comparison declared', (rows) => declared(rows, one, document)));
    if (await reader.maybe(tables.ComparisonDecision, { revisionId: revision.id })) continue;
    await inNameOf(SET_UP.person, 'comparison approved', (rows) =>
      rows.add(tables.ComparisonDecision, {
        revisionId: revision.id,
        decision: 'approved',
        shownSha256: digestOfDeclared(revision),
        because: null,
      }),
    );
  }
  const { id: comparisonId } = await reader.named(tables.Comparison, comparison.comparison);
  const specimens = await specimenIds(reader, document);
  for (const written of writtenIn(document)) {
    if (await isWritten(reader, written, comparisonId, specimens)) continue;
    await inNameOf(written.by, 'comparison folder imported', (rows) => write(rows, written, comparisonId, specimens));
  }
  return added;
}

async function isReferenceKept(reader: Reader, { reference, revision }: Reference): Promise<boolean> {
  const noun = await reader.maybe(tables.Reference, { key: reference });
  if (!noun) return false;
  const history = await reader.history(tables.ReferenceRevision, noun.id);
  return history.some(({ content }) => content.revision === revision);
}

async function keptRevision(
  reader: Reader,
  { comparison, revision }: Comparison,
): Promise<tables.ComparisonRevision | undefined> {
  const noun = await reader.maybe(tables.Comparison, { key: comparison });
  const history = noun ? await reader.history(tables.ComparisonRevision, noun.id) : [];
  return history.find(({ content }) => content.revision === revision);
}

/** One revision, told with what was there of its items by then, as the folder's instants say. */
async function declared(
  rows: Rows,
  content: Comparison,
  { observations }: ComparisonDocument,
): Promise<tables.ComparisonRevision> {
  const names = new Names(rows, '');
  const productId = await names.idOf(tables.Product, content.product, '/product');
  const columns = await columnsOf(names, content);
  names.refuse();
  const items = await itemsOf(rows, content);
  const runs = await rows.find(tables.Run, { specimenId: In(items.map(({ id }) => id)) });
  const made = await rows.latestOf(
    tables.RunVersion,
    runs.map(({ id }) => id),
  );
  const before = (instant: string) => Date.parse(instant) < Date.parse(content.declaredAt);
  const noun =
    (await rows.maybe(tables.Comparison, { key: content.comparison })) ??
    (await rows.add(tables.Comparison, { key: content.comparison, productId }));
  const revision = await rows.addVersion(tables.ComparisonRevision, noun.id, {
    ...columns,
    runsBefore: [...made.values()].filter(({ content }) => before(content.startedAt)).length,
    observationsBefore: observations.filter(
      ({ specimen, at }) => items.some(({ key }) => key === specimen) && before(at),
    ).length,
  });
  await addCompared(rows, revision);
  return revision;
}

async function specimenIds(
  reader: Reader,
  { custody, observations, setAside = [] }: ComparisonDocument,
): Promise<Map<string, string>> {
  const keys = [...new Set([...custody, ...observations, ...setAside].map(({ specimen }) => specimen))];
  const nouns = await reader.find(tables.Specimen, { key: In(keys) });
  return new Map(nouns.map(({ key, id }) => [key, id]));
}

/** What one person wrote down, kept in one change. */
type Written = Required<Pick<ComparisonDocument, 'custody' | 'consents' | 'observations' | 'setAside'>> & {
  by: string;
};

function writtenIn({ custody, consents = [], observations, setAside = [] }: ComparisonDocument): Written[] {
  const recorders = [...custody, ...consents].map(({ recordedBy }) => recordedBy);
  const people = new Set([...recorders, ...[...observations, ...setAside].map(({ by }) => by)]);
  return [...people].map((by) => ({
    by,
    custody: custody.filter(({ recordedBy }) => recordedBy === by),
    consents: consents.filter(({ recordedBy }) => recordedBy === by),
    observations: observations.filter((one) => one.by === by),
    setAside: setAside.filter((one) => one.by === by),
  }));
}

/** A change is kept whole or not at all, so that one thing of it stands for all. */
async function isWritten(
  reader: Reader,
  { by, custody: [event], consents: [consent], observations: [seen], setAside: [away] }: Written,
  comparisonId: string,
  specimens: ReadonlyMap<string, string>,
): Promise<boolean> {
  if (seen) {
    const specimenId = idOf(seen, specimens);
    return (await reader.find(tables.Observation, { comparisonId, specimenId, feature: seen.feature })).length > 0;
  }
  if (event) {
    const kept = await reader.find(tables.CustodyEvent, { specimenId: idOf(event, specimens) });
    return kept.some(({ content }) => content.recordedBy === by && content.at === event.at);
  }
  if (consent) {
    const kept = await reader.find(tables.ComparisonConsent, { comparisonId });
    return kept.some(({ content }) => content.recordedBy === by);
  }
  if (!away) return true;
  return (await reader.find(tables.ComparisonSetAside, { comparisonId, specimenId: idOf(away, specimens) })).length > 0;
}

async function write(
  rows: Rows,
  { custody, consents, observations, setAside }: Written,
  comparisonId: string,
  specimens: ReadonlyMap<string, string>,
): Promise<void> {
  for (const content of custody) await rows.add(tables.CustodyEvent, { specimenId: idOf(content, specimens), content });
  for (const content of consents) await rows.add(tables.ComparisonConsent, { comparisonId, content });
  for (const content of observations) {
    const specimenId = idOf(content, specimens);
    const noun = await rows.add(tables.Observation, { comparisonId, specimenId, feature: content.feature });
    await rows.addVersion(tables.ObservationVersion, noun.id, { content });
  }
  for (const { because, ...one } of setAside)
    await rows.add(tables.ComparisonSetAside, { comparisonId, specimenId: idOf(one, specimens), because });
}

function idOf({ specimen }: { specimen: string }, specimens: ReadonlyMap<string, string>): string {
  const id = specimens.get(specimen);
  if (id === undefined) throw new Error(`Specimen ${specimen} of the folder is not kept.`);
  return id;
}
