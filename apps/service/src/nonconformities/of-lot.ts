import { type Reader, tables } from '@breakbook/records';
import { In } from 'typeorm';

export interface NonconformityOfLot {
  noun: tables.Nonconformity;
  version: tables.NonconformityVersion;
}

/** The nonconformities that concern a lot by what is said of them now, open and closed, by their numbers. */
export async function nonconformitiesOf(reader: Reader, lotId: string): Promise<NonconformityOfLot[]> {
  const concerned = await reader.find(tables.NonconformityLot, { lotId });
  const named = await reader.find(tables.NonconformityVersion, { id: In(concerned.map((one) => one.versionId)) });
  const records = [...new Set(named.map(({ recordId }) => recordId))];
  const latest = await reader.latestOf(tables.NonconformityVersion, records);
  const said = new Set(named.map(({ id }) => id));
  const nouns = await reader.find(tables.Nonconformity, { id: In(records) }, { number: 'asc' });
  return nouns.flatMap((noun) => {
    const version = latest.get(noun.id);
    return version && said.has(version.id) ? [{ noun, version }] : [];
  });
}
