import { type ComparisonCase, itemsOf, type Person, type Specimen } from '@breakbook/lab';
import { type Reader, tables } from '@breakbook/records';
import type { ComparisonReportContent, PhotoOfComparison } from '@breakbook/reports';
import { In } from 'typeorm';
import { reports } from '../arithmetic.js';
import { lifeOfSpecimen } from '../documents/sheets/specimen-life.js';
import { peopleOf, storedLot } from '../lots/lot-bundle.js';

/** All that a report says besides case and result, every person by name. */
export type ReportRecords = Pick<
  ComparisonReportContent,
  'lab' | 'customer' | 'product' | 'people' | 'items' | 'methods' | 'conduct' | 'photos' | 'nonconformities'
>;

/** What stands in the records of what was compared: of its items more than of what is known. */
export async function reportRecords(reader: Reader, given: ComparisonCase): Promise<ReportRecords> {
  const { comparison } = given;
  const keys = itemsOf(given);
  const nouns = await reader.find(tables.Specimen, { key: In(keys) }, { number: 'asc' });
  const said = await reader.latestOf(
    tables.SpecimenVersion,
    nouns.map(({ id }) => id),
  );
  const [first] = nouns;
  if (!first) throw new Error(`Comparison ${comparison.comparison} has no item that is kept.`);
  const product = await reader.named(tables.Product, comparison.product);
  const people = await peopleOf(reader);
  return {
    lab: (await reader.latest(tables.LabVersion, reader.labId)).content,
    customer: (await reader.latest(tables.LotVersion, first.lotId)).customer,
    product: (await reader.latest(tables.ProductVersion, product.id)).content,
    people,
    items: nouns.flatMap(({ id }): Specimen[] => [said.get(id)?.content ?? []].flat()),
    methods: await methodsOf(reader, given),
    conduct: await conductOf(reader, given, people),
    ...(await besideRuns(reader, given, nouns)),
  };
}

async function methodsOf(
  reader: Reader,
  { comparison: { characteristics } }: ComparisonCase,
): Promise<ReportRecords['methods']> {
  const named = new Map(
    characteristics.flatMap(({ source }) =>
      source.from === 'runs' ? [[`${source.method} ${source.methodRevision}`, source] as const] : [],
    ),
  );
  const { methodOfComparison } = await reports();
  const methods: ReportRecords['methods'] = [];
  for (const { method: key, methodRevision } of named.values()) {
    const noun = await reader.named(tables.Method, key);
    const found = (await reader.history(tables.MethodRevision, noun.id)).find(
      ({ content }) => content.revision === methodRevision,
    );
    if (found) methods.push(methodOfComparison(found.content));
  }
  return methods;
}

async function conductOf(
  reader: Reader,
  { runs }: ComparisonCase,
  people: readonly Person[],
): Promise<ReportRecords['conduct']> {
  const nameOf = (key: string) => people.find(({ person }) => person === key)?.name ?? key;
  const wanted = new Set(runs.map(({ run }) => run));
  const conduct: ReportRecords['conduct'] = [];
  for (const lot of [...new Set(runs.map((one) => one.lot))])
    for (const { run, operator, validity, deviations, files } of (await storedLot(reader, lot)).bundle.runs)
      if (wanted.has(run))
        conduct.push({
          run,
          operator: nameOf(operator),
          ...(validity ? { decidedBy: nameOf(validity.person) } : {}),
          ...(validity?.reason ? { reason: validity.reason } : {}),
          deviations,
          files: files.map(({ name, sha256 }) => ({ name, ...(sha256 === undefined ? {} : { sha256 }) })),
        });
  return conduct;
}

/** Photos that observations rest on, and nonconformities that name an item or a run of it. */
async function besideRuns(
  reader: Reader,
  { observations }: ComparisonCase,
  items: readonly tables.Specimen[],
): Promise<Pick<ReportRecords, 'photos' | 'nonconformities'>> {
  const rested = new Set(observations.flatMap(({ photos = [] }) => photos));
  const photographed = observations.flatMap(({ photos = [], specimen }) => (photos.length > 0 ? specimen : []));
  const others = await reader.find(tables.Specimen, { key: In(photographed) });
  const photos = new Map<string, PhotoOfComparison>();
  const nonconformities = new Map<number, ReportRecords['nonconformities'][number]>();
  for (const noun of new Map([...items, ...others].map((one) => [one.id, one])).values()) {
    const life = await lifeOfSpecimen(reader, noun);
    for (const { sha256, name, caption, takenBy, takenAt } of life.photos)
      if (sha256 !== undefined && rested.has(sha256)) photos.set(sha256, { sha256, name, caption, takenBy, takenAt });
    if (items.includes(noun)) for (const one of life.nonconformities) nonconformities.set(one.number, one);
  }
  return { photos: [...photos.values()], nonconformities: [...nonconformities.values()] };
}
