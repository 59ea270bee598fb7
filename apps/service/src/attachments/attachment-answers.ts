import { Instant, Key, Photo } from '@breakbook/lab';
import { z } from 'zod';
import { PAGING } from '../records/paging.js';

/** What a photo can belong to. */
export const SUBJECTS = ['lot', 'specimen', 'run', 'rig'] as const;
export type SubjectKind = (typeof SUBJECTS)[number];

export const MEDIA_TYPES = ['image/png', 'image/jpeg', 'video/mp4', 'video/quicktime', 'application/pdf'] as const;

const Subjects = {
  lot: Key.optional(),
  specimen: Key.optional(),
  run: Key.optional(),
  rig: Key.optional(),
};

export const AttachmentsAsked = z.strictObject({ ...PAGING, ...Subjects });
export type AttachmentsAsked = z.infer<typeof AttachmentsAsked>;

/** Seconds, as text in an address. */
const Seconds = z
  .string()
  .regex(/^-?\d{1,5}(\.\d{1,6})?$/, { error: 'must be seconds, such as -1.25' })
  .transform(Number)
  .pipe(Photo.shape.triggerOffset.unwrap())
  .meta({ wire: { type: 'number', minimum: -86_400, maximum: 86_400 } });

/** What the address of a new photo, video or document says of it; its bytes are the body. */
export const NewAttachment = z.strictObject({ ...Subjects, ...Photo.shape, triggerOffset: Seconds.optional() });
export type NewAttachment = z.infer<typeof NewAttachment>;

export const KeptAttachment = z.strictObject({
  number: z.number().int().min(1),
  of: z.strictObject({ kind: z.enum(SUBJECTS), key: Key }),
  mediaType: z.enum(MEDIA_TYPES),
  /** Of a photo, in pixels. */
  width: z.number().int().optional(),
  height: z.number().int().optional(),
  /** When the file itself says that it was recorded, by the clock of the camera. */
  recorded: z
    .strictObject({
      local: z.iso.datetime({ local: true }),
      zone: z
        .string()
        .regex(/^(Z|[+-]\d\d:\d\d)$/)
        .optional(),
      said: z.enum(['EXIF DateTimeOriginal', 'EXIF DateTime', 'movie header']),
    })
    .optional(),
  bytes: z.number().int(),
  sha256: z.string().regex(/^[0-9a-f]{64}$/),
  version: z.number().int().min(1),
  at: Instant,
  by: Key,
  reason: z.string().optional(),
  content: Photo,
});
export type KeptAttachment = z.infer<typeof KeptAttachment>;
