import { type Reader, tables } from '@breakbook/records';
import { In } from 'typeorm';

/** Ids of the comparisons that name a specimen as an item, by any of their revisions. */
export async function comparisonsOfItem(reader: Reader, specimenId: string): Promise<string[]> {
  const items = await reader.find(tables.ComparisonItem, { specimenId });
  const revisions = await reader.find(tables.ComparisonRevision, { id: In(items.map(({ revisionId }) => revisionId)) });
  return [...new Set(revisions.map(({ recordId }) => recordId))];
}
