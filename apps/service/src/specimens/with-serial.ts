import { type Reader, tables } from '@breakbook/records';

/** Which specimens carry this serial, as is said of them now? Makers number as they like: it may be several. */
export async function withSerial(reader: Reader, serial: string): Promise<string[]> {
  const ever = await reader.manager
    .createQueryBuilder(tables.SpecimenVersion, 'version')
    .where('version.labId = :labId', { labId: reader.labId })
    .andWhere("version.content->>'serial' = :serial", { serial })
    .getMany();
  const now = await reader.latestOf(
    tables.SpecimenVersion,
    ever.map(({ recordId }) => recordId),
  );
  return [...now].filter(([, { content }]) => content.serial === serial).map(([id]) => id);
}
