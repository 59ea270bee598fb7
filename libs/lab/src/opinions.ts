import { z } from 'zod';
import { Day, Key, Line, Paragraph } from './text.js';

export const OpinionState = z.enum(['given', 'withdrawn']);
export type OpinionState = z.infer<typeof OpinionState>;

/** What an authorised person makes of results, and what that rests on (ISO/IEC 17025:2017, 7.8.7). It is no result. */
export const Opinion = z.strictObject({
  text: Paragraph,
  /** What beside the results it rests on: observations, literature, experience; "the results alone" is one, too. */
  basis: Paragraph,
  /** To whom it was said by word of mouth, and on which day: a record of that is kept (7.8.7.3). */
  spoken: z.strictObject({ to: Line, on: Day }).optional(),
});
export type Opinion = z.infer<typeof Opinion>;

/** An opinion as a decision sheet and a report carry it. */
export const OpinionShown = Opinion.extend({
  number: z.number().int().min(1),
  version: z.number().int().min(1),
  lot: Key,
  /** Left out where it is about the lot as a whole. */
  run: Key.optional(),
  /** The evaluation whose results it rests on, where it is about the lot. */
  evaluation: z.number().int().optional(),
  by: Key,
  name: Line,
  role: Line,
  at: z.string(),
});
export type OpinionShown = z.infer<typeof OpinionShown>;
