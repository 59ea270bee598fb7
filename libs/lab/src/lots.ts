import { z } from 'zod';
import { quantityOf } from './quantity.js';
import { Day, Instant, Key, Line, Paragraph } from './text.js';

export const SamplingRecord = z.strictObject({
  drawnBy: Key,
  drawnOn: Day,
  /** The rule in words, such as "random numbers over the lot list". */
  rule: Paragraph,
  seed: z.string().max(100).optional(),
  place: Line,
});
export type SamplingRecord = z.infer<typeof SamplingRecord>;

export const Lot = z.strictObject({
  lot: Key,
  product: Key,
  kind: z.enum(['pre-production', 'production', 'purchased']),
  size: z.number().int().min(1),
  madeFrom: Day,
  madeTo: Day,
  note: Paragraph.optional(),
  /** Left out when the lab did not draw: results then concern the sample as received. */
  sampling: SamplingRecord.optional(),
});
export type Lot = z.infer<typeof Lot>;

export const Origin = z.enum(['drawn at random', 'hand-picked', 'field return', 'suspect']);
export type Origin = z.infer<typeof Origin>;

export const Specimen = z
  .strictObject({
    specimen: Key,
    lot: Key,
    serial: Line.optional(),
    noSerialReason: Line.optional(),
    origin: Origin,
    receivedAt: Instant,
    condition: Paragraph,
    mass: quantityOf('mass').optional(),
    build: z.record(Line, Line).optional(),
  })
  .refine((one) => (one.serial === undefined) !== (one.noSerialReason === undefined), {
    error: 'needs a serial, or the reason why there is none',
    path: ['serial'],
  });
export type Specimen = z.infer<typeof Specimen>;
