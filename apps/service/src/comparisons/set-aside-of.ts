import type { SetAside } from '@breakbook/lab';
import { type Reader, tables } from '@breakbook/records';
import { In } from 'typeorm';
import { peopleBehind } from '../records/read-kind.js';

/** Items of a comparison that cannot be compared, each with the reason. */
export async function setAsideOf(reader: Reader, comparisonId: string): Promise<SetAside[]> {
  const rows = await reader.find(tables.ComparisonSetAside, { comparisonId });
  const people = await peopleBehind(reader, rows);
  const specimens = await reader.find(tables.Specimen, { id: In(rows.map(({ specimenId }) => specimenId)) });
  return rows.map(({ specimenId, because, personId, at }) => ({
    specimen: specimens.find(({ id }) => id === specimenId)?.key ?? '',
    because,
    by: people.get(personId) ?? '',
    at: at.toISOString(),
  }));
}
