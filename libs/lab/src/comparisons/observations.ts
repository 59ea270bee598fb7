import { z } from 'zod';
import { Quantity } from '../quantity.js';
import { Instant, Key, Line, Paragraph } from '../text.js';

export const FeatureKind = z.enum([
  'marking',
  'label text',
  'dimension',
  'mass',
  'drilling',
  'shape',
  'ply count and order',
  'laboratory finding',
]);
export type FeatureKind = z.infer<typeof FeatureKind>;

/** Something looked at on every item and on the reference, in the order declared. */
export const Feature = z.strictObject({
  feature: Key,
  title: Line,
  kind: FeatureKind,
  /** What it is, and how it is written down so that like is written alike. */
  howRead: Paragraph,
  /** Looking changes the item, such as a section cut for a ply count. */
  changesItem: z.boolean(),
});
export type Feature = z.infer<typeof Feature>;

/** What one person saw of one feature on one specimen. */
export const Observation = z
  .strictObject({
    specimen: Key,
    feature: Key,
    /** As read, letter by letter: "DUNLIN 42", "12 plies, 0/45/-45/0". */
    seen: Line.optional(),
    quantity: Quantity.optional(),
    instrument: Line.optional(),
    /** Who found it, where this lab did not. */
    givenBy: z.enum(['customer', 'outside provider']).optional(),
    provider: Line.optional(),
    note: Paragraph.optional(),
    /** SHA-256 of the photos it rests on. */
    photos: z
      .array(z.string().regex(/^[0-9a-f]{64}$/))
      .max(50)
      .optional(),
    by: Key,
    at: Instant,
  })
  .refine(({ seen, quantity }) => (seen === undefined) !== (quantity === undefined), {
    error: 'needs either what was seen or a quantity, and not both',
    path: ['seen'],
  })
  .refine(({ givenBy, provider }) => givenBy !== 'outside provider' || provider !== undefined, {
    error: 'needs the name of the outside provider',
    path: ['provider'],
  });
export type Observation = z.infer<typeof Observation>;
