import { z } from 'zod';
import { Instant, Key, Line, Paragraph } from '../text.js';

/** What happened to an item: `changesItem` says that it was not afterwards what it was before. */
export const CustodyStep = z.enum([
  'received',
  'handed over',
  'seal opened',
  'sealed',
  'examined',
  'tested',
  'stored',
  'given out',
]);
export type CustodyStep = z.infer<typeof CustodyStep>;

/** One entry of an item's custody: who had it from whom, when, where, under which seal and in what condition. */
export const CustodyEvent = z
  .strictObject({
    specimen: Key,
    step: CustodyStep,
    at: Instant,
    /** Who gave it away and who has it after: people of the lab by their keys, or others by name. */
    from: Line.optional(),
    to: Line,
    place: Line,
    /** The seal it bore when this step began, or was given by it. */
    seal: Line.optional(),
    condition: Paragraph,
    changesItem: z.boolean(),
    /** Who wrote it down. */
    recordedBy: Key,
  })
  .refine(({ step, from }) => (step !== 'handed over' && step !== 'received') || from !== undefined, {
    error: 'needs who gave the item away',
    path: ['from'],
  });
export type CustodyEvent = z.infer<typeof CustodyEvent>;

/** Whoever may be touched by an examination that ends the item was told of it, or agreed to it. */
export const ConsentOrNotice = z.strictObject({
  kind: z.enum(['consent', 'notice']),
  /** Who agreed, or was told. */
  party: Line,
  about: Paragraph,
  at: Instant,
  recordedBy: Key,
});
export type ConsentOrNotice = z.infer<typeof ConsentOrNotice>;
