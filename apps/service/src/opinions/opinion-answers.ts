import { Instant, Key, Opinion, OpinionState, Paragraph } from '@breakbook/lab';
import { z } from 'zod';
import { PAGING } from '../records/paging.js';

/** An opinion as it stands. */
export const OpinionAnswer = z.strictObject({
  number: z.number().int().min(1),
  /** To be given back in If-Match with what is said next. */
  version: z.number().int().min(1),
  state: OpinionState,
  lot: Key,
  /** Left out where it is about the lot as a whole. */
  run: Key.optional(),
  /** The evaluation of the lot that was the last when it was said. */
  evaluation: z.number().int().optional(),
  /** Who said what is in force, when and why. */
  by: Key,
  at: Instant,
  reason: Paragraph.optional(),
  content: Opinion,
});
export type OpinionAnswer = z.infer<typeof OpinionAnswer>;

export const OpinionsAsked = z.strictObject({ ...PAGING, lot: Key.optional(), run: Key.optional() });
export type OpinionsAsked = z.infer<typeof OpinionsAsked>;

/** About a lot or about a run, one of the two. */
export const NewOpinion = Opinion.extend({ lot: Key.optional(), run: Key.optional() }).refine(
  ({ lot, run }) => (lot === undefined) !== (run === undefined),
  { error: 'names a lot or a run, one of the two', path: ['lot'], params: { code: 'body.missing-field' } },
);
export type NewOpinion = z.infer<typeof NewOpinion>;

export const ChangedOpinion = z.strictObject({ reason: Paragraph, content: Opinion });
export type ChangedOpinion = z.infer<typeof ChangedOpinion>;
