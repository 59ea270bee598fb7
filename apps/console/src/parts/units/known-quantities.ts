/** A number of the record behind a printed one. */
export interface KnownQuantity {
  value: number;
  unit: string;
  /** A lower bound, which print rounds down. */
  bound: boolean;
}

/**
 * Which exact numbers may stand behind the printed ones of a record? Every number under a field `unit`, with that unit.
 * A bound is a number called `bound`, or the `value` of something whose name begins so.
 */
export function quantitiesIn(record: unknown, unit?: string, within = '', name = ''): KnownQuantity[] {
  if (typeof record === 'number') {
    const bound = name === 'bound' || (name === 'value' && within.startsWith('bound'));
    return unit === undefined ? [] : [{ value: record, unit, bound }];
  }
  if (typeof record !== 'object' || record === null) return [];
  const own = 'unit' in record && typeof record.unit === 'string' ? record.unit : unit;
  // An element of a list goes by the name of the list.
  const container = Array.isArray(record) ? within : name;
  return Object.entries(record).flatMap(([key, value]) =>
    Array.isArray(record) ? quantitiesIn(value, own, container, name) : quantitiesIn(value, own, container, key),
  );
}
