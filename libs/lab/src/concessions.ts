import { z } from 'zod';
import { LimitRef } from './limits.js';
import { Day, Key, Line, Paragraph } from './text.js';

/**
 * Leave to depart from a requirement: a deviation permit before the product is made or tested, a concession after it was
 * found not to conform (ISO 9000:2015, 3.12.5 and 3.12.6; clause numbers from memory).
 */
export const ConcessionKind = z.enum(['concession', 'deviation permit']);
export type ConcessionKind = z.infer<typeof ConcessionKind>;

export const ConcessionState = z.enum(['requested', 'granted', 'refused', 'withdrawn']);
export type ConcessionState = z.infer<typeof ConcessionState>;

/** How far it reaches: so many units of the lot, or these serials. */
export const ConcessionBounds = z.union([
  z.strictObject({ quantity: z.number().int().min(1) }),
  z.strictObject({ serials: z.array(Line).min(1).max(1000) }),
]);
export type ConcessionBounds = z.infer<typeof ConcessionBounds>;

/** What is asked for. It never changes a verdict: what does not conform does not conform. */
export const Concession = z
  .strictObject({
    kind: ConcessionKind,
    lot: Key,
    /** The internal limit that is departed from; a permit to depart from something else names none. */
    limit: LimitRef.optional(),
    /** What departs from what, and by how much. */
    departure: Paragraph,
    bounds: ConcessionBounds,
    /** Last day on which it holds, in the lab's zone. */
    until: Day,
    reason: Paragraph,
    /** What may come of it, for whom, and why that is borne. */
    risk: Paragraph,
  })
  .refine(({ kind, limit }) => kind === 'deviation permit' || limit !== undefined, {
    error: 'a concession names the limit that was not met',
    path: ['limit'],
    params: { code: 'body.missing-field' },
  });
export type Concession = z.infer<typeof Concession>;

/** Such as "40 units" or "serials DN42-0401, DN42-0402". */
export function boundsInWords(bounds: ConcessionBounds): string {
  if ('quantity' in bounds) return `${bounds.quantity} ${bounds.quantity === 1 ? 'unit' : 'units'}`;
  return `${bounds.serials.length === 1 ? 'serial' : 'serials'} ${bounds.serials.join(', ')}`;
}
