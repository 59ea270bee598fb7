import { z } from 'zod';
import { MovedInstant } from './moved-instants.js';
import { Validity } from './outcomes.js';
import { Photo } from './photos.js';
import { Quantity } from './quantity.js';
import { Instant, Key, Line, Paragraph, Revision } from './text.js';

/** A value read by a person from an instrument. `of` is a characteristic's name, or what the method asks to be keyed. */
export const Measurement = z.strictObject({
  of: z.string().regex(/^[a-z][A-Za-z0-9]{0,39}$/),
  quantity: Quantity,
  /** Where on the part, such as "90° from the valve". */
  place: Line.optional(),
  /** Which of the run's passages it belongs to, where there are several. */
  passage: z.number().int().min(1).optional(),
  instrument: Line,
  /** Whose value it is, where this lab did not measure it (ISO/IEC 17025:2017, 7.8.2.1 p and 7.8.2.2). */
  givenBy: z.enum(['customer', 'outside provider']).optional(),
  person: Key,
  at: Instant,
});
export type Measurement = z.infer<typeof Measurement>;

export const EndReason = z.enum([
  'something broke',
  'rig limit reached',
  'programme ended',
  'stopped early',
  'rig fault',
]);
export type EndReason = z.infer<typeof EndReason>;

/** What a person saw on the specimen after the run. */
export const Examination = z.strictObject({
  endReason: EndReason,
  /** First the mode that came first. Codes are the method's. */
  modes: z.array(z.strictObject({ code: z.string(), place: Line.optional() })),
  /** Was the part under test (the rim) found whole? Without a look it is not known. */
  partSound: z.enum(['sound', 'not sound', 'not examined']),
  note: Paragraph.optional(),
  /** Why photos that the method asks for were not taken. */
  withoutPhotos: Line.optional(),
  person: Key,
  at: Instant,
});
export type Examination = z.infer<typeof Examination>;

/** Something broke and the part was not found sound: it cannot be run again. */
export function destroysSpecimen(examination: Examination | undefined): boolean {
  return examination?.endReason === 'something broke' && examination.partSound !== 'sound';
}

export const InvalidReason = z.enum([
  'rig fault',
  'sensor fault',
  'wrong mounting',
  'profile outside the method',
  'specimen damaged before the run',
  'wrong specimen',
  'record incomplete',
]);

/** Decided by a second person who has not seen limits or verdicts. */
export const ValidityDecision = z
  .strictObject({
    validity: Validity,
    reason: InvalidReason.optional(),
    note: Paragraph.optional(),
    person: Key,
    at: Instant,
  })
  .refine((one) => one.validity !== 'invalid' || one.reason !== undefined, {
    error: 'an invalid run needs one of the listed reasons',
    path: ['reason'],
  });
export type ValidityDecision = z.infer<typeof ValidityDecision>;

export const RunFile = z.strictObject({
  name: z.string().min(1).max(1000),
  sha256: z
    .string()
    .regex(/^[0-9a-f]{64}$/)
    .optional(),
});

/** One of a run's loadings: a strike, a stage of braking, a step. A run without any is one loading. */
export const RunPassage = z.strictObject({
  passage: z.number().int().min(1),
  kind: z.enum(['strike', 'stage', 'step']),
  title: Line,
  startedAt: Instant,
  /** Where the part was loaded, such as "90° from the valve, between spoke holes". */
  place: Line.optional(),
  /** The file that recorded it, one of the run's. Left out where one file covers the whole run. */
  file: z.string().min(1).max(1000).optional(),
  /** What was aimed at, where that differs between passages. */
  target: Quantity.optional(),
  /** How the part was found after it. */
  found: z.enum(['whole', 'damaged', 'not examined']).optional(),
});
export type RunPassage = z.infer<typeof RunPassage>;

/** One specimen on one rig, as recorded. */
export const Run = z.strictObject({
  run: Key,
  specimen: Key,
  planLine: Key,
  method: Key,
  methodRevision: Revision,
  /** Left out for values keyed from a table. */
  rig: Key.optional(),
  layoutRevision: Revision.optional(),
  operator: Key,
  startedAt: Instant,
  /** When the lab's records took it in, by their clock; left out in a folder. No run begins after it. */
  receivedAt: Instant.optional(),
  conditions: z.record(Line, z.union([Line, Quantity])),
  /** In the order they were made; each number once. */
  passages: z
    .array(RunPassage)
    .superRefine((passages, context) => {
      for (const [index, { passage }] of passages.entries())
        if (index > 0 && passage <= (passages[index - 1]?.passage ?? 0))
          context.addIssue({
            code: 'custom',
            path: [index, 'passage'],
            message: `passages are numbered upward, each once; ${passage} follows ${passages[index - 1]?.passage}`,
          });
    })
    .optional(),
  files: z.array(RunFile),
  measurements: z.array(Measurement),
  /** Each moment once; it stands in place of the one proposed. */
  instants: z
    .array(MovedInstant)
    .max(200)
    .refine((all) => new Set(all.map(({ instant, passage }) => `${passage ?? 0} ${instant}`)).size === all.length, {
      error: 'a moment of a passage stands in one place; keep the last of them',
    })
    .optional(),
  examination: Examination.optional(),
  /** What is said of its photos; their bytes are kept elsewhere. */
  photos: z.array(Photo).max(200).optional(),
  validity: ValidityDecision.optional(),
  readiness: z.strictObject({ confirmedBy: Key, at: Instant }).optional(),
  deviations: z.array(Paragraph),
});
export type Run = z.infer<typeof Run>;
