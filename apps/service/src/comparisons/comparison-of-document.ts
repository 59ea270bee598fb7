import { type Reader, tables } from '@breakbook/records';

/** The comparison that a document is about, where it is about one. */
export async function comparisonOfDocument(
  reader: Reader,
  document: Pick<tables.Document, 'id'>,
): Promise<tables.Comparison | undefined> {
  const of = await reader.maybe(tables.ComparisonDocument, { documentId: document.id });
  if (!of) return undefined;
  const { comparisonId } = await reader.one(tables.ComparisonConclusion, of.conclusionId);
  return reader.one(tables.Comparison, comparisonId);
}
