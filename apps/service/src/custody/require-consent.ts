import { Refusal } from '@breakbook/lab';
import { type Reader, tables } from '@breakbook/records';
import { In } from 'typeorm';
import { standingOf } from '../comparisons/comparison-standing.js';
import { comparisonsOfItem } from '../comparisons/comparisons-of-item.js';

/**
 * Refuses a step after which an item is not what it was, where a comparison says that remnants may go to court and nobody
 * had agreed to it, or was told of it, by then (ASTM E860, from its scope: interested parties are told before evidence is
 * altered).
 */
export async function requireConsent(
  reader: Reader,
  specimen: tables.Specimen,
  { what, at, pointer = '/changesItem' }: { what: string; at: string; pointer?: string },
): Promise<void> {
  const ids = await comparisonsOfItem(reader, specimen.id);
  for (const noun of await reader.find(tables.Comparison, { id: In(ids) })) {
    const { state, last } = await standingOf(reader, noun);
    if (state === 'withdrawn' || !last.content.mayGoToCourt) continue;
    const consents = await reader.find(tables.ComparisonConsent, { comparisonId: noun.id });
    if (consents.some(({ content }) => Date.parse(content.at) <= Date.parse(at))) continue;
    throw new Refusal({
      code: 'state.conflict',
      pointer,
      found: what,
      detail: `Specimen ${specimen.key} is an item of comparison ${noun.key}, whose remnants may go to court, and nobody had agreed to a step that changes it, or was told of it, by ${at}.`,
      action: `Tell those whom it touches, or have them agree, and note that with comparison ${noun.key}; document the item as it is until then.`,
    });
  }
}
