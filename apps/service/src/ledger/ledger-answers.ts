import { Instant, Key } from '@breakbook/lab';
import { z } from 'zod';

const Sequence = z.number().int().min(1);
const Digest = z.string().regex(/^[0-9a-f]{64}$/);

export const EntryInList = z.strictObject({
  sequence: Sequence,
  at: Instant,
  by: Key,
  action: z.string(),
  reason: z.string().optional(),
  hash: Digest,
});
export type EntryInList = z.infer<typeof EntryInList>;

export const EntryInFull = z.strictObject({
  ...EntryInList.shape,
  /** Hash of the entry before; 64 zeros before the first. */
  previous: Digest,
  /** What is hashed, letter by letter: docs/formats.md says how. */
  text: z.string(),
});
export type EntryInFull = z.infer<typeof EntryInFull>;

export const Head = z.strictObject({ lab: z.uuid(), sequence: Sequence, hash: Digest });
export type Head = z.infer<typeof Head>;

/** Whether everything is as it was written, or the first thing that is not. */
export const Verification = z.discriminatedUnion('holds', [
  z.strictObject({
    holds: z.literal(true),
    entries: z.number().int(),
    rows: z.number().int(),
    files: z.number().int(),
    checkpoints: z.number().int(),
    head: Head.optional(),
  }),
  z.strictObject({
    holds: z.literal(false),
    sequence: Sequence.optional(),
    table: z.string().optional(),
    id: z.string().optional(),
    because: z.string(),
  }),
]);
