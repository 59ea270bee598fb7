import type { Reference } from '@breakbook/lab';
import { type Rows, tables } from '@breakbook/records';
import { In } from 'typeorm';
import { kind } from '../records/kind.js';
import type { Names } from '../records/names.js';

export const REFERENCE = kind<Reference, tables.Reference, tables.ReferenceRevision>({
  word: 'reference',
  keyField: 'reference',
  nouns: tables.Reference,
  versions: tables.ReferenceRevision,
  anchor: async (content, names) => ({ productId: await names.idOf(tables.Product, content.product, '/product') }),
  async columns(content, names) {
    if (content.variants) await names.person(content.variants.checkedBy, '/variants/checkedBy');
    await noteUnfitUnits(names, content);
    return { content };
  },
  contentOf: ({ content }) => content,
  rowsWith: addUnits,
});

/** A unit is a specimen of this product whose making is known, by the lot and serial it is received under. */
async function noteUnfitUnits(names: Names, { units, product }: Reference): Promise<void> {
  const { reader } = names;
  const nouns = await reader.find(tables.Specimen, { key: In(units.map(({ specimen }) => specimen)) });
  const said = await reader.latestOf(
    tables.SpecimenVersion,
    nouns.map(({ id }) => id),
  );
  const lots = await reader.find(tables.Lot, { id: In([...new Set(nouns.map(({ lotId }) => lotId))]) });
  const products = await reader.find(tables.Product, { id: In(lots.map(({ productId }) => productId)) });
  for (const [index, unit] of units.entries()) {
    const at = `/units/${index}`;
    const noun = await names.of(tables.Specimen, unit.specimen, `${at}/specimen`);
    if (!noun) continue;
    const content = said.get(noun.id)?.content;
    const lot = lots.find(({ id }) => id === noun.lotId);
    const of = products.find(({ id }) => id === lot?.productId);
    if (of?.key !== product)
      names.note('state.conflict', `${at}/specimen`, `is of product ${of?.key}, not ${product}.`, unit.specimen);
    if (lot?.key !== unit.lot)
      names.note('state.conflict', `${at}/lot`, `specimen ${unit.specimen} is of lot ${lot?.key}.`, unit.lot);
    if (content?.origin === 'suspect')
      names.note(
        'state.conflict',
        `${at}/specimen`,
        'is of unknown making, and cannot stand for what is known. Compare it as an item.',
        unit.specimen,
      );
    if (unit.serial !== undefined && content?.serial !== unit.serial)
      names.note(
        'state.conflict',
        `${at}/serial`,
        `specimen ${unit.specimen} was received ${content?.serial === undefined ? 'without a serial' : `with serial ${content.serial}`}.`,
        unit.serial,
      );
  }
}

async function addUnits(rows: Rows, { id: revisionId, content }: tables.ReferenceRevision): Promise<void> {
  for (const { specimen } of content.units) {
    const { id: specimenId } = await rows.named(tables.Specimen, specimen);
    await rows.add(tables.ReferenceUnit, { revisionId, specimenId });
  }
}
