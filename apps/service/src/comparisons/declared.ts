import type { Comparison } from '@breakbook/lab';
import { type NewVersion, type Reader, type Rows, tables } from '@breakbook/records';
import { In } from 'typeorm';
import type { Names } from '../records/names.js';
import { revisionIn } from '../records/revisions.js';

/** A revision as it is kept, once all that it names is found; what is not there or does not fit is noted by its place. */
export async function columnsOf(
  names: Names,
  content: Comparison,
  comparisonId?: string,
): Promise<NewVersion<tables.ComparisonRevision>> {
  const { compared, alternative, blind } = content;
  const reference = compared.what === 'two groups' ? undefined : compared.reference;
  const referenceRevisionId = reference ? await referenceOf(names, content, reference, '/compared/reference') : null;
  const alternativeRevisionId = alternative
    ? await referenceOf(names, content, alternative.reference, '/alternative/reference')
    : null;
  if (compared.what === 'two groups') await noteUnfitLots(names, content, compared);
  else await noteUnfitItems(names, content, compared.items, [referenceRevisionId, alternativeRevisionId]);
  for (const [index, person] of (blind?.blinded ?? []).entries()) await names.person(person, `/blind/blinded/${index}`);
  if (blind) await names.person(blind.listKeptBy, '/blind/listKeptBy');
  await noteUnknownMethods(names, content);
  const before = await seenBefore(names.reader, content, comparisonId);
  return { content, referenceRevisionId, alternativeRevisionId, ...before };
}

/** Points at the items and lots that a revision names. */
export async function addCompared(rows: Rows, { id: revisionId, content }: tables.ComparisonRevision): Promise<void> {
  const { compared } = content;
  if (compared.what === 'items with a reference') {
    for (const item of compared.items) {
      const { id: specimenId } = await rows.named(tables.Specimen, item);
      await rows.add(tables.ComparisonItem, { revisionId, specimenId });
    }
    return;
  }
  for (const side of ['first', 'second'] as const)
    for (const lot of compared[side].lots) {
      const { id: lotId } = await rows.named(tables.Lot, lot);
      await rows.add(tables.ComparisonLot, { revisionId, lotId, side });
    }
}

/** The specimens that a comparison looks at, but for its reference: its items, or all of its lots. */
export async function itemsOf(reader: Reader, { compared }: Comparison): Promise<tables.Specimen[]> {
  if (compared.what === 'items with a reference') return reader.find(tables.Specimen, { key: In(compared.items) });
  const lots = await reader.find(tables.Lot, { key: In([...compared.first.lots, ...compared.second.lots]) });
  return reader.find(tables.Specimen, { lotId: In(lots.map(({ id }) => id)) });
}

async function referenceOf(
  names: Names,
  { product }: Comparison,
  { reference, revision }: { reference: string; revision: number },
  at: string,
): Promise<string | null> {
  const noun = await names.of(tables.Reference, reference, `${at}/reference`);
  if (!noun) return null;
  const history = await names.reader.history(tables.ReferenceRevision, noun.id);
  const found = history.find(({ content }) => content.revision === revision);
  if (!found)
    names.note(
      'body.not-found',
      `${at}/revision`,
      `there is no revision ${revision} of reference ${reference}.`,
      revision,
    );
  else if (found.content.product !== product)
    names.note(
      'state.conflict',
      `${at}/reference`,
      `is of product ${found.content.product}, not ${product}.`,
      reference,
    );
  return found?.id ?? null;
}

/** An item is a specimen received as this product, and no unit of what it is compared with. */
async function noteUnfitItems(
  names: Names,
  { product }: Comparison,
  items: readonly string[],
  referenceIds: readonly (string | null)[],
): Promise<void> {
  const { reader } = names;
  const ids = referenceIds.filter((id): id is string => id !== null);
  const units = await reader.find(tables.ReferenceUnit, { revisionId: In(ids) });
  for (const [index, item] of items.entries()) {
    const at = `/compared/items/${index}`;
    if (items.indexOf(item) !== index) names.note('body.range', at, 'stands twice. Name each item once.', item);
    const noun = await names.of(tables.Specimen, item, at);
    if (!noun) continue;
    const lot = await reader.one(tables.Lot, noun.lotId);
    const of = await reader.one(tables.Product, lot.productId);
    if (of.key !== product) names.note('state.conflict', at, `is of product ${of.key}, not ${product}.`, item);
    if (units.some(({ specimenId }) => specimenId === noun.id))
      names.note('state.conflict', at, 'is a unit of the reference, and cannot be compared with itself.', item);
  }
}

async function noteUnfitLots(
  names: Names,
  { product }: Comparison,
  compared: Extract<Comparison['compared'], { what: 'two groups' }>,
): Promise<void> {
  const all: string[] = [];
  for (const side of ['first', 'second'] as const)
    for (const [index, key] of compared[side].lots.entries()) {
      const at = `/compared/${side}/lots/${index}`;
      if (all.includes(key)) names.note('body.range', at, 'stands twice. A lot is of one group, once.', key);
      all.push(key);
      const lot = await names.of(tables.Lot, key, at);
      const of = lot && (await names.reader.one(tables.Product, lot.productId));
      if (of && of.key !== product) names.note('state.conflict', at, `is of product ${of.key}, not ${product}.`, key);
    }
}

/** Values come from runs under a method revision that is kept, and by a characteristic that it has. */
async function noteUnknownMethods(names: Names, { characteristics }: Comparison): Promise<void> {
  for (const [index, { source, tool }] of characteristics.entries()) {
    if (source.from !== 'runs') continue;
    const at = `/characteristics/${index}/source`;
    const noun = await names.of(tables.Method, source.method, `${at}/method`);
    if (!noun) continue;
    const history = await names.reader.history(tables.MethodRevision, noun.id);
    const method = history.find(({ content }) => revisionIn(content) === source.methodRevision)?.content;
    if (!method)
      names.note(
        'body.not-found',
        `${at}/methodRevision`,
        `there is no revision ${source.methodRevision} of method ${source.method}.`,
        source.methodRevision,
      );
    else if (
      tool.kind !== 'failure modes' &&
      !method.characteristics.some(({ characteristic }) => characteristic === source.characteristic)
    )
      names.note(
        'body.not-found',
        `${at}/characteristic`,
        `method ${source.method} rev. ${source.methodRevision} has ${method.characteristics.map(({ characteristic }) => characteristic).join(', ')}, and none of this name.`,
        source.characteristic,
      );
  }
}

/** What was there of the items by now: whoever declares may have seen it. */
async function seenBefore(
  reader: Reader,
  content: Comparison,
  comparisonId?: string,
): Promise<Pick<tables.ComparisonRevision, 'runsBefore' | 'observationsBefore'>> {
  const specimenIds = (await itemsOf(reader, content)).map(({ id }) => id);
  const runs = await reader.find(tables.Run, { specimenId: In(specimenIds) });
  const observations = await reader.find(tables.Observation, { specimenId: In(specimenIds) });
  const own = comparisonId === undefined ? [] : await reader.find(tables.Observation, { comparisonId });
  return {
    runsBefore: runs.length,
    observationsBefore: new Set([...observations, ...own].map(({ id }) => id)).size,
  };
}
