/** A number of the record behind a printed one. */
export interface KnownQuantity {
  value: number;
  unit: string;
  /** A lower bound, which print rounds down. */
  bound: boolean;
}

/**
 * Which exact numbers may stand behind the printed ones of a record? Every number under a field `unit`, with that unit.
 */
export function quantitiesIn(record: unknown, unit?: string, bound = false): KnownQuantity[] {
  if (typeof record === 'number') return unit === undefined ? [] : [{ value: record, unit, bound }];
  if (typeof record !== 'object' || record === null) return [];
  const own = 'unit' in record && typeof record.unit === 'string' ? record.unit : unit;
  return Object.entries(record).flatMap(([name, value]) => quantitiesIn(value, own, bound || name.startsWith('bound')));
}
