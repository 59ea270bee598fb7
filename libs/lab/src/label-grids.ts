import { z } from 'zod';

/** Sheets of labels by their general sizes; how each lies on its paper is the business of whoever prints them. */
export const LabelGridName = z.enum([
  'A4, 24 of 70 × 37 mm',
  'A4, 21 of 70 × 42.3 mm',
  'A4, 10 of 105 × 57 mm',
  'A4, 40 of 52.5 × 29.7 mm',
  'Letter, 30 of 66.7 × 25.4 mm',
  'Letter, 20 of 101.6 × 25.4 mm',
  'Letter, 14 of 101.6 × 33.9 mm',
  'Letter, 10 of 101.6 × 50.8 mm',
]);
export type LabelGridName = z.infer<typeof LabelGridName>;

/** Codes that a label can carry (ISO/IEC 16022 and ISO/IEC 18004). */
export const LabelCode = z.enum(['data matrix', 'qr']);
export type LabelCode = z.infer<typeof LabelCode>;
