import { Instant, Key, Photo } from '@breakbook/lab';
import { z } from 'zod';
import { PAGING } from '../records/paging.js';

/** What a photo can belong to. */
export const SUBJECTS = ['lot', 'specimen', 'run', 'rig'] as const;
export type SubjectKind = (typeof SUBJECTS)[number];

const Subjects = {
  lot: Key.optional(),
  specimen: Key.optional(),
  run: Key.optional(),
  rig: Key.optional(),
};

export const AttachmentsAsked = z.strictObject({ ...PAGING, ...Subjects });
export type AttachmentsAsked = z.infer<typeof AttachmentsAsked>;

/** What the address of a new photo says of it; its bytes are the body. */
export const NewAttachment = z.strictObject({ ...Subjects, ...Photo.shape });
export type NewAttachment = z.infer<typeof NewAttachment>;

export const KeptAttachment = z.strictObject({
  number: z.number().int().min(1),
  of: z.strictObject({ kind: z.enum(SUBJECTS), key: Key }),
  mediaType: z.enum(['image/png', 'image/jpeg']),
  width: z.number().int(),
  height: z.number().int(),
  bytes: z.number().int(),
  sha256: z.string().regex(/^[0-9a-f]{64}$/),
  version: z.number().int().min(1),
  at: Instant,
  by: Key,
  reason: z.string().optional(),
  content: Photo,
});
export type KeptAttachment = z.infer<typeof KeptAttachment>;
