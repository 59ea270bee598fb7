import type { Specimen } from '@breakbook/lab';
import { type Reader, tables } from '@breakbook/records';
import { acceptance } from '../arithmetic.js';
import { kind } from '../records/kind.js';
import type { Names } from '../records/names.js';

export const SPECIMEN = kind<Specimen, tables.Specimen, tables.SpecimenVersion>({
  word: 'specimen',
  keyField: 'specimen',
  nouns: tables.Specimen,
  versions: tables.SpecimenVersion,
  anchor: async (content, names) => ({ lotId: await names.idOf(tables.Lot, content.lot, '/lot') }),
  async columns(content, names) {
    const lot = await names.reader.maybe(tables.Lot, { key: content.lot });
    if (lot) await noteConflictsInLot(names, content, lot);
    return { content };
  },
  contentOf: ({ content }) => content,
});

/** A serial belongs to one specimen of a lot, and who built a specimen did not draw it. */
async function noteConflictsInLot(names: Names, specimen: Specimen, lot: tables.Lot): Promise<void> {
  const others = await specimensOf(names.reader, lot.id);
  const other = others.find((one) => one.specimen !== specimen.specimen && one.serial === specimen.serial);
  if (specimen.serial !== undefined && other)
    names.note(
      'state.conflict',
      '/serial',
      `serial ${specimen.serial} is that of specimen ${other.specimen} of this lot. Read the serial again.`,
      specimen.serial,
    );
  const sampling = (await names.reader.latestOf(tables.SamplingRecord, [lot.id])).get(lot.id);
  if (!sampling) return;
  const drawer = await names.reader.latest(tables.PersonVersion, sampling.drawnById);
  const { builtByDrawer } = await acceptance();
  names.take(builtByDrawer(specimen, drawer.content, names.place('/build')));
}

/** The specimens of a lot, as they are said to be now. */
export async function specimensOf(reader: Reader, lotId: string): Promise<Specimen[]> {
  const nouns = await reader.find(tables.Specimen, { lotId });
  const versions = await reader.latestOf(
    tables.SpecimenVersion,
    nouns.map(({ id }) => id),
  );
  return [...versions.values()].map(({ content }) => content);
}
