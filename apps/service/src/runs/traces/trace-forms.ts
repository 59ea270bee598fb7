import { z } from 'zod';

/** A number in an address, as decimal text. */
const Seconds = z
  .string()
  .regex(/^-?\d{1,12}(\.\d{1,25})?(e-?\d{1,2})?$/i, { error: 'must be seconds as a decimal number, such as 12.5' })
  .transform(Number)
  .meta({ wire: { type: 'number' } });

const whole = (least: number, most: number, digits: RegExp) =>
  z
    .string()
    .regex(digits, { error: `must be a whole number from ${least} to ${most}` })
    .transform(Number)
    .refine((one) => one >= least && one <= most, { error: `must be a whole number from ${least} to ${most}` })
    .meta({ wire: { type: 'integer', minimum: least, maximum: most } });

const Passage = whole(1, 9999, /^[1-9]\d{0,3}$/);

/** Which record of a run with several passages. */
export const ChannelsAsked = z.strictObject({ passage: Passage.optional() });
export type ChannelsAsked = z.infer<typeof ChannelsAsked>;

/** Which part of a channel; all of it where neither end is named. */
export const WindowAsked = z.strictObject({
  from: Seconds.optional(),
  to: Seconds.optional(),
  points: whole(2, 20_000, /^\d{1,5}$/).optional(),
  passage: Passage.optional(),
});
export type WindowAsked = z.infer<typeof WindowAsked>;

const Channel = z.strictObject({
  channel: z.string(),
  unit: z.string(),
  reference: z.enum(['gauge', 'absolute']).optional(),
  passage: z.number().int().optional(),
  /** Seconds, on the clock of the record. */
  from: z.number(),
  to: z.number(),
  samples: z.number().int(),
});

/** A channel as it is judged, corrected once; without its samples. */
export const ChannelOfRun = Channel;
export type ChannelOfRun = z.infer<typeof ChannelOfRun>;

/** Part of a channel: how many samples it has there, and the points it is drawn from, all of them where `whole`. */
export const WindowOfChannel = Channel.extend({
  whole: z.boolean(),
  time: z.array(z.number()),
  values: z.array(z.number()),
});
export type WindowOfChannel = z.infer<typeof WindowOfChannel>;
