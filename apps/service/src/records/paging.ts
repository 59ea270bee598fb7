import { Refusal } from '@breakbook/lab';
import { z } from 'zod';
import { parameterProblem } from '../http/queried-by.js';

export const MOST_ITEMS = 200;

/** How many rows a list is asked for: text in an address, a number behind the door. */
const Limit = z
  .string()
  .regex(/^([1-9]\d?|1\d\d|200)$/, { error: `must be a number from 1 to ${MOST_ITEMS}` })
  .transform(Number)
  .meta({ wire: { type: 'integer', minimum: 1, maximum: MOST_ITEMS, default: 50 } });

/** The parameters of every list. */
export const PAGING = {
  limit: Limit.optional(),
  /** As a list before this one gave it in `next`. */
  after: z.string().max(100).optional(),
  order: z.enum(['oldest', 'newest']).optional(),
};

export const Paging = z.strictObject(PAGING);
export type Paging = z.infer<typeof Paging>;

/** Of what has revisions: each thing in its last one, or in the one in force, where it has one. */
export const DEFINITIONS_ASKED = { ...PAGING, standing: z.enum(['last', 'in force']).optional() };

export const DefinitionsAsked = z.strictObject(DEFINITIONS_ASKED);
export type DefinitionsAsked = z.infer<typeof DefinitionsAsked>;

/** The order of a list and the place in it. What a place is made of is nobody's business but the list's. */
export function pageAsked<B extends string>({ limit = 50, after, order = 'oldest' }: Paging, by: B) {
  return {
    by,
    limit,
    descending: order === 'newest',
    ...(after === undefined ? {} : { after: placeIn(after) }),
  };
}

/** Where the next piece begins, from the last row of this one. */
export function nextPlace(last: number | undefined, more: boolean): string | null {
  return more && last !== undefined ? Buffer.from(`after ${last}`).toString('base64url') : null;
}

function placeIn(after: string): number {
  const place = /^after (\d{1,10})$/.exec(Buffer.from(after, 'base64url').toString('latin1'))?.[1];
  // Node decodes what is no base64url by leaving it out; only the very text that was given is taken.
  if (place === undefined || nextPlace(Number(place), true) !== after || Number(place) > 2 ** 31 - 1)
    throw new Refusal(
      parameterProblem(
        'after',
        'is no place in this list. Send what the list before gave as "next", unchanged.',
        after,
      ),
    );
  return Number(place);
}
