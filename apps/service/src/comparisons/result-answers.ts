import type { ComparisonInput } from '@breakbook/figures';
import { type ComparisonResult, Instant, Key, Paragraph, Revision } from '@breakbook/lab';
import { z } from 'zod';
import { declaredIn } from '../openapi/elsewhere.js';

const Sha256 = z.string().regex(/^[0-9a-f]{64}$/, { error: 'must be 64 hexadecimal digits in lower case' });
const Result = declaredIn<ComparisonResult>(
  'lab',
  'ComparisonResult',
  'What a comparison came to: every declared characteristic and feature, whatever it showed.',
);

const Figure = declaredIn<ComparisonInput>(
  'figures',
  'ComparisonInput',
  'Reference, items, bounds and limits of a characteristic on one axis, as data to draw.',
);

/** What a comparison came to, and what it rests on. */
export const ComparisonResultAnswer = z.strictObject({
  number: z.number().int().min(1),
  comparison: Key,
  revision: Revision,
  at: Instant,
  by: Key,
  software: z.string(),
  /** Of the case it was worked out from, in canonical JSON, which is kept beside it. */
  recordsSha256: Sha256,
  restsOn: z.strictObject({
    declaration: Sha256,
    reference: Sha256.optional(),
    alternative: Sha256.optional(),
    observations: Sha256,
    custody: Sha256,
    consents: Sha256,
    setAside: Sha256,
    runs: z.array(z.strictObject({ run: Key, sha256: Sha256 })),
  }),
  /** What is otherwise by now; where there is anything, it is worked out again before it is concluded from. */
  changedSince: z.array(z.string()),
  /** The revision was declared when runs or observations of its items were there. */
  declaredAfterResults: z.boolean(),
  content: Result,
  /** Of each declared characteristic that lies on an axis and of which there are values. */
  figures: z.array(z.strictObject({ characteristic: Key, figure: Figure })),
  /** SHA-256 of the content in canonical JSON (RFC 8785): what a conclusion signs. */
  sha256: Sha256,
});
export type ComparisonResultAnswer = z.infer<typeof ComparisonResultAnswer>;

/** A conclusion to be locked over the last result, as it was shown. */
export const NewConclusion = z
  .strictObject({
    result: z.number().int().min(1),
    shown: Sha256,
    note: Paragraph.optional(),
    /** The conclusion whose place it takes, and why. */
    replaces: z.number().int().min(1).optional(),
    reason: Paragraph.optional(),
  })
  .refine(({ replaces, reason }) => (replaces === undefined) === (reason === undefined), {
    error: 'a conclusion that takes the place of another names it in "replaces" and says why in "reason"',
    path: ['reason'],
  });
export type NewConclusion = z.infer<typeof NewConclusion>;
