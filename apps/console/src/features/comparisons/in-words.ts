import type { Comparison, DeclaredCharacteristic } from '@breakbook/lab';

/** Where the values of a characteristic come from. */
export function sourceInWords(source: DeclaredCharacteristic['source'], features: Comparison['features']): string {
  return source.from === 'runs'
    ? `runs under ${source.method} rev. ${source.methodRevision}, ${source.characteristic}`
    : `examination: ${features.find(({ feature }) => feature === source.feature)?.title ?? source.feature}`;
}

/** How what stands on the other side is called: the reference, or a group by its title. */
export function sidesOf({ compared }: Pick<Comparison, 'compared'>): { known: string; items: string } {
  return compared.what === 'two groups'
    ? { known: compared.first.title, items: compared.second.title }
    : { known: 'reference', items: 'items' };
}
