import { QUANTITY_KINDS, type QuantityKind, unitByCode } from '@breakbook/units';
import { z } from 'zod';

export const UnitCode = z
  .string()
  .refine((code) => code !== '', {
    error: 'a unit is needed; nothing is assumed',
    params: { code: 'unit.missing' },
    abort: true,
  })
  .refine((code) => unitByCode(code) !== undefined, {
    error: 'is not a UCUM unit code',
    params: { code: 'unit.unknown' },
  });

/**
 * A number with its unit. `entered` keeps what a person typed or a file said, where that differs from the stored form.
 */
export const Quantity = z.strictObject({
  value: z.number(),
  unit: UnitCode,
  entered: z.strictObject({ text: z.string().max(100), unit: z.string().max(60) }).optional(),
});
export type Quantity = z.infer<typeof Quantity>;

const KINDS = Object.keys(QUANTITY_KINDS) as [QuantityKind, ...QuantityKind[]];
export const QuantityKindName = z.enum(KINDS);

/** A quantity that must be of one kind: a length where a pressure is due is refused with the accepted units. */
export function quantityOf(kind: QuantityKind) {
  const { stored, shown } = QUANTITY_KINDS[kind];
  const dimension = unitByCode(stored)?.dimension;
  return Quantity.refine(({ unit }) => unitByCode(unit)?.dimension === dimension, {
    error: `must be a ${kind}, in ${shown.join(', ')}`,
    path: ['unit'],
    params: { code: 'unit.wrong-dimension' },
  });
}
