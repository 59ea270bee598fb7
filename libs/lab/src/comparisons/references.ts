import { z } from 'zod';
import { Day, Instant, Key, Line, Paragraph, Revision } from '../text.js';

/** A specimen of known making, by the serial that its build records bear. */
export const ReferenceUnit = z.strictObject({ specimen: Key, lot: Key, serial: Line.optional() });
export type ReferenceUnit = z.infer<typeof ReferenceUnit>;

/** What was looked through for build variants of the period, and what each feature may be besides what the units show. */
export const BuildVariants = z.strictObject({
  /** The list looked through, such as "change notes of Dunlin 42, March to June". */
  list: Paragraph,
  checkedBy: Key,
  /** By feature: what else was built in the period. */
  features: z.record(Key, z.array(Line)),
});
export type BuildVariants = z.infer<typeof BuildVariants>;

/** A set of genuine specimens across lots, chosen before any suspect result was seen, and frozen with its instant. */
export const Reference = z.strictObject({
  reference: Key,
  revision: Revision,
  title: Line,
  product: Key,
  madeFrom: Day,
  madeTo: Day,
  /** How the units were chosen. */
  choice: Paragraph,
  units: z
    .array(ReferenceUnit)
    .min(1)
    .max(1000)
    .refine((units) => new Set(units.map(({ specimen }) => specimen)).size === units.length, {
      error: 'names a specimen twice; each unit speaks once',
    }),
  /** Left out where nobody looked through the build records: a physical difference is then inconclusive. */
  variants: BuildVariants.optional(),
  chosenBy: Key,
  frozenAt: Instant,
});
export type Reference = z.infer<typeof Reference>;

export const ReferenceRef = z.strictObject({ reference: Key, revision: Revision });
export type ReferenceRef = z.infer<typeof ReferenceRef>;
