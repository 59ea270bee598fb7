import { z } from 'zod';
import { Instant, Key, Line } from './text.js';

/** How the pressure of a part was lost: three stories that a fall of pressure alone does not always tell apart. */
export const LossOfPressure = z.enum(['burst', 'leak', 'tyre off']);
export type LossOfPressure = z.infer<typeof LossOfPressure>;

/** The moments of a record that a person may move: where a burst or heat run failed, where a strike began and ended. */
export const MovableInstant = z.enum(['failure', 'contact begins', 'contact ends']);
export type MovableInstant = z.infer<typeof MovableInstant>;

/** A proposed moment that a person confirmed, or put elsewhere. */
export const MovedInstant = z
  .strictObject({
    instant: MovableInstant,
    /** Which of several passages it belongs to. */
    passage: z.number().int().min(1).optional(),
    /** Seconds on the clock of the record. */
    at: z.number(),
    /** Of the failure in a burst record: how the pressure was lost. Left out, it is a burst. */
    loss: LossOfPressure.optional(),
    reason: Line,
    person: Key,
    movedAt: Instant,
  })
  .refine(({ instant, loss }) => loss === undefined || instant === 'failure', {
    error: 'how the pressure was lost is said of a failure, not of a contact',
    path: ['loss'],
  });
export type MovedInstant = z.infer<typeof MovedInstant>;

/** What the step asks that stands with both numbers, as proposed and as moved, in each characteristic that changed. */
export const MOVED_QUESTION = 'Was a moment moved by a person, and what did that change?';
