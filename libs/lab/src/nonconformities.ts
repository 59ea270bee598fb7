import { z } from 'zod';
import { Day, Key, Line, Paragraph } from './text.js';

/** How a nonconformity came to be opened. The first two are opened by the records themselves. */
export const NonconformitySource = z.enum(['failed verdict', 'lab error', 'found by a person']);
export type NonconformitySource = z.infer<typeof NonconformitySource>;

export const NonconformityState = z.enum(['open', 'closed']);
export type NonconformityState = z.infer<typeof NonconformityState>;

/** A requirement that is not met, by a product or by the lab's own work (ISO/IEC 17025:2017, 7.10), and what is done about it. */
export const Nonconformity = z
  .strictObject({
    title: Line,
    source: NonconformitySource,
    /** What departs from what. */
    found: Paragraph,
    lots: z.array(Key).max(100),
    runs: z.array(Key).max(500),
    specimens: z.array(Key).max(500),
    cause: Paragraph.optional(),
    /** What keeps it from doing harm meanwhile. */
    containment: Paragraph.optional(),
    correctiveAction: Paragraph.optional(),
    due: Day.optional(),
  })
  .refine(({ lots, runs, specimens }) => lots.length + runs.length + specimens.length > 0, {
    error: 'names nothing it concerns; name a lot, a run or a specimen',
    path: ['lots'],
  });
export type Nonconformity = z.infer<typeof Nonconformity>;

/** What must be said of a nonconformity before it can be closed, and is not. */
export function lackingToClose({ cause, containment, correctiveAction, due }: Nonconformity): string[] {
  return [
    ...(cause === undefined ? ['cause'] : []),
    ...(containment === undefined ? ['containment'] : []),
    ...(correctiveAction === undefined ? ['corrective action'] : []),
    ...(due === undefined ? ['day it is due'] : []),
  ];
}
