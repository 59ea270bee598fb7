import { type Reader, tables } from '@breakbook/records';
import type { ReportSignature } from '@breakbook/reports';

/** A person as printed under a document: name and role as said at this moment, and for what. */
export async function printedPerson(
  reader: Reader,
  meaning: ReportSignature['meaning'],
  personId: string,
  at: string,
): Promise<ReportSignature> {
  const said = (await reader.latestOf(tables.PersonVersion, [personId])).get(personId);
  if (!said) throw new Error(`Nothing is said of person ${personId}.`);
  return { meaning, name: said.content.name, role: said.content.role, at };
}
