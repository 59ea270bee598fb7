import { z } from 'zod';
import { Duty } from './duties.js';
import { Key, Line, Paragraph } from './text.js';

export const Person = z.strictObject({
  person: Key,
  name: Line,
  role: Line,
  duties: z.array(Duty),
});
export type Person = z.infer<typeof Person>;

export const Lab = z.strictObject({
  lab: Key,
  name: Line,
  address: Paragraph,
  /** IANA zone in which times are shown. */
  zone: z.string().regex(/^[A-Za-z_]+(\/[A-Za-z_+-]+)*$/),
  /** Who needs a second factor to sign in at all; otherwise it is only whoever signs, decides or administers, for that. */
  secondFactor: z.enum(['everyone']).optional(),
});
export type Lab = z.infer<typeof Lab>;

export const Customer = z.strictObject({ name: Line, contact: Line });
export type Customer = z.infer<typeof Customer>;
