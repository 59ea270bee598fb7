import { z } from 'zod';
import { Instant, Key, Line, Paragraph } from './text.js';

/** What is said of a photo. */
export const Photo = z.strictObject({
  /** What it shows, as it is printed under it. */
  caption: Paragraph,
  takenBy: Key,
  /** The camera or telephone. */
  device: Line,
  takenAt: Instant,
});
export type Photo = z.infer<typeof Photo>;
