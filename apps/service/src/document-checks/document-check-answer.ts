import { CertificateState, Instant } from '@breakbook/lab';
import { z } from 'zod';

/**
 * What a file was found to be: it `holds`, or it is of another's keys, altered since, or nothing that a lab signed; and of
 * a certificate that holds, that it is no longer in force.
 */
export const CheckVerdict = z.enum([
  'holds',
  'on-hold',
  'superseded',
  'withdrawn',
  'unknown-key',
  'altered',
  'not-recognised',
]);
export type CheckVerdict = z.infer<typeof CheckVerdict>;

/** A document laid beside what the lab signed, and its numbers beside what they come to now. Nothing of it is kept. */
export const DocumentCheckAnswer = z.strictObject({
  verdict: CheckVerdict,
  /** Of the file as it was sent. */
  sha256: z.string(),
  /** Each question that is asked of a document; null where it could not be asked. */
  findings: z.array(
    z.strictObject({
      asks: z.enum(['digest', 'signature', 'attachment', 'ledger', 'checkpoint']),
      holds: z.boolean().nullable(),
      says: z.string(),
    }),
  ),
  document: z
    .strictObject({ kind: z.string(), number: z.string(), revision: z.number().int(), issuedAt: Instant })
    .optional(),
  /** Where the very file is one of the lab's documents: its number there. */
  kept: z.number().int().optional(),
  certificate: z.strictObject({ number: z.number().int(), state: CertificateState }).optional(),
  /** Of a document that holds, and has in it what its numbers come from. */
  recomputed: z
    .strictObject({
      numbers: z.number().int(),
      since: z.strictObject({ software: z.string(), methods: z.array(z.string()) }),
      now: z.string(),
      filesRead: z.boolean(),
      /** How many places differ; the first of them are listed. */
      count: z.number().int(),
      differences: z.array(
        z.strictObject({ place: z.string(), kept: z.string().optional(), now: z.string().optional() }),
      ),
      pagesAlike: z.boolean(),
    })
    .optional(),
});
export type DocumentCheckAnswer = z.infer<typeof DocumentCheckAnswer>;
