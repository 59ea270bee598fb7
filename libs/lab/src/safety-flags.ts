import { z } from 'zod';
import { Instant, Key, Line, Paragraph } from './text.js';

export const SafetyFlagState = z.enum(['open', 'closed']);
export type SafetyFlagState = z.infer<typeof SafetyFlagState>;

/** Said wherever a flag is shown or handed out. */
export const SAFETY_CAUTION =
  'This program does not decide whether a product is safe, or whether anybody must be told. Whom to tell, and by when, is for licensed counsel and local law, and periods may be short and may have begun: ask at once.';

/** What somebody saw that may endanger riders of what was shipped. */
export const SafetyFlag = z
  .strictObject({
    title: Line,
    /** Why it may endanger somebody. */
    reason: Paragraph,
    seen: Paragraph,
    /** What was done at once, such as stopping shipment. */
    doneAtOnce: Paragraph,
    lots: z.array(Key).max(100),
    runs: z.array(Key).max(500),
    nonconformities: z.array(z.number().int().min(1)).max(100),
    /** Serials of units it may touch, whether they are in the lab or not. */
    serials: z.array(Line).max(2000),
  })
  .refine(({ lots, runs, nonconformities }) => lots.length + runs.length + nonconformities.length > 0, {
    error: 'names nothing it was seen on; name a lot, a run or a nonconformity',
    path: ['lots'],
    params: { code: 'body.missing-field' },
  });
export type SafetyFlag = z.infer<typeof SafetyFlag>;

/** A flag as a decision sheet and a report carry it. */
export const SafetyFlagShown = z.strictObject({
  number: z.number().int().min(1),
  title: Line,
  state: SafetyFlagState,
  raisedBy: Key,
  raisedAt: Instant,
  /** What was decided when it was closed. */
  decision: Paragraph.optional(),
});
export type SafetyFlagShown = z.infer<typeof SafetyFlagShown>;
