import { type Reader, tables } from '@breakbook/records';

/**
 * Which specimens does a scanned or typed text name: the one with this code, or else those that carry it as their
 * serial, as is said of them now? Makers number as they like, so it may be several. Those whose serial is hidden from whoever
 * asks are found by their code alone.
 */
export async function calledSo(reader: Reader, text: string, hidden: ReadonlySet<string>): Promise<string[]> {
  const coded = await reader.maybe(tables.Specimen, { key: text });
  if (coded) return [coded.id];
  const ever = await reader.manager
    .createQueryBuilder(tables.SpecimenVersion, 'version')
    .where('version.labId = :labId', { labId: reader.labId })
    .andWhere("version.content->>'serial' = :serial", { serial: text })
    .getMany();
  const now = await reader.latestOf(
    tables.SpecimenVersion,
    ever.map(({ recordId }) => recordId),
  );
  return [...now]
    .filter(([, { content }]) => content.serial === text && !hidden.has(content.specimen))
    .map(([id]) => id);
}
