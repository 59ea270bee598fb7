import {
  Examination,
  InvalidReason,
  Line,
  LossOfPressure,
  Measurement,
  MovableInstant,
  Paragraph,
  Validity,
} from '@breakbook/lab';
import { z } from 'zod';

/** Measurements keyed after the run, or corrected; `record` says which one is corrected. */
export const LaterMeasurements = z.strictObject({
  measurements: z
    .array(z.strictObject({ record: z.uuid().optional(), measurement: Measurement }))
    .min(1)
    .max(100),
  /** Needed where something said before is corrected. */
  reason: Line.optional(),
});
export type LaterMeasurements = z.infer<typeof LaterMeasurements>;

/** What was seen on the specimen, noted after the run or corrected. */
export const LaterExamination = z.strictObject({ examination: Examination, reason: Line.optional() });
export type LaterExamination = z.infer<typeof LaterExamination>;

/** A moment of the record that a person confirms or puts elsewhere, or leaves where it is proposed after all. */
export const LaterInstant = z
  .strictObject({
    instant: MovableInstant,
    passage: z.number().int().min(1).optional(),
    /** Seconds on the clock of the record. */
    at: z.union([z.number(), z.literal('as proposed')]),
    loss: LossOfPressure.optional(),
    reason: Line,
  })
  .refine(({ at, loss }) => at !== 'as proposed' || loss === undefined, {
    error: 'a moment that stands as proposed keeps how the pressure was lost, too; confirm it by its seconds',
    path: ['loss'],
  })
  .refine(({ instant, loss }) => instant === 'failure' || loss === undefined, {
    error: 'how the pressure was lost is said of a failure, not of a contact',
    path: ['loss'],
  });
export type LaterInstant = z.infer<typeof LaterInstant>;

/** Whether a run is valid. Who decides and when is not for the sender to say. */
export const NewDecision = z
  .strictObject({ validity: Validity, reason: InvalidReason.optional(), note: Paragraph.optional() })
  .refine((one) => one.validity !== 'invalid' || one.reason !== undefined, {
    error: 'an invalid run needs one of the listed reasons',
    path: ['reason'],
    params: { code: 'body.missing-field' },
  })
  .refine((one) => one.validity !== 'void' || one.note !== undefined, {
    error: 'a run is void only where it was recorded by mistake; a note says which mistake',
    path: ['note'],
    params: { code: 'body.missing-field' },
  });
export type NewDecision = z.infer<typeof NewDecision>;
