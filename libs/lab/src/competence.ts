import { z } from 'zod';
import { Day, Key, Paragraph, Revision } from './text.js';

/** How far somebody has come with a revision of a method (ISO/IEC 17025:2017, 6.2.5, from memory). Only the third may run alone. */
export const CompetenceLevel = z.enum(['trained', 'observed', 'authorised', 'withdrawn']);
export type CompetenceLevel = z.infer<typeof CompetenceLevel>;

/** What is said of a person and a revision of a method, and what it rests on. */
export const NewCompetence = z
  .strictObject({
    method: Key,
    revision: Revision,
    level: CompetenceLevel,
    /** Last day of an authorisation, in the lab's zone. */
    until: Day.optional(),
    note: Paragraph,
  })
  .refine(({ level, until }) => (level === 'authorised') === (until !== undefined), {
    error: 'an authorisation says until when it holds, and nothing else does',
    path: ['until'],
  });
export type NewCompetence = z.infer<typeof NewCompetence>;
