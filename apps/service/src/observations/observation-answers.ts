import { Instant, Key, Observation, Paragraph } from '@breakbook/lab';
import { z } from 'zod';
import { PAGING } from '../records/paging.js';

const { by: _by, ...fields } = Observation.shape;
/** What was seen of a feature on a specimen; who saw it is whoever sends it. */
export const NewObservation = z.strictObject(fields);
export type NewObservation = z.infer<typeof NewObservation>;

export const ObservationsAsked = z.strictObject({ ...PAGING, specimen: Key.optional(), feature: Key.optional() });
export type ObservationsAsked = z.infer<typeof ObservationsAsked>;

const said = {
  version: z.number().int().min(1),
  at: Instant,
  by: Key,
  reason: Paragraph.optional(),
  content: Observation,
};

/** What was seen, as it is said now, and how it was said before. */
export const ObservationAnswer = z.strictObject({
  number: z.number().int().min(1),
  ...said,
  /** Numbers of the attachments that are its photos, in its order. */
  attachments: z.array(z.number().int()),
  earlier: z.array(z.strictObject(said)),
});
export type ObservationAnswer = z.infer<typeof ObservationAnswer>;
