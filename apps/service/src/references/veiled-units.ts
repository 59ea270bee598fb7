import type { Reference } from '@breakbook/lab';
import { HIDDEN } from '../comparisons/blinds.js';

/** Revisions of references as somebody sees them from whom these specimens are hidden: their serials are not told. */
export function veiledUnits<T extends { content: Reference }>(kept: T[], hidden: ReadonlySet<string>): T[] {
  return kept.map((one) => ({
    ...one,
    content: {
      ...one.content,
      units: one.content.units.map((unit) =>
        hidden.has(unit.specimen) && unit.serial !== undefined ? { ...unit, serial: HIDDEN } : unit,
      ),
    },
  }));
}
