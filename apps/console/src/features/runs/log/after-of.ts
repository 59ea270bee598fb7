import type { MeasurementDraft } from './draft.js';

/**
 * The rows still to be keyed after a run: one for each row keyed before it, of the same place and instrument, whose
 * value is not there yet. A change counts only where the same place was read twice.
 */
export function afterOf(
  rows: readonly MeasurementDraft[],
  names: Readonly<Record<string, unknown>>,
  at: string,
): MeasurementDraft[] {
  const there = new Set(rows.map(({ of, place }) => `${of} ${place.trim()}`));
  return rows.flatMap((row) => {
    const of = row.of.replace(/Before$/, 'After');
    if (of === row.of || !(of in names) || there.has(`${of} ${row.place.trim()}`)) return [];
    return [{ ...row, id: crypto.randomUUID(), of, value: '', at }];
  });
}
