import { Instant, Key } from '@breakbook/lab';
import { z } from 'zod';

const Sha256 = z.string().regex(/^[0-9a-f]{64}$/);

/** A lot that was handed out with everything it rests on. */
export const LotPackageAnswer = z.strictObject({
  number: z.number().int().min(1),
  lot: Key,
  at: Instant,
  by: Key,
  software: z.string(),
  /** How many entries the ledger of its checkpoint has. */
  ledgerSize: z.number().int(),
  /** Of datapackage.json, which the seal names. */
  descriptorSha256: Sha256,
  sha256: Sha256,
  bytes: z.number().int(),
  /** Can its bytes still be fetched? They are kept for a day. */
  kept: z.boolean(),
});
export type LotPackageAnswer = z.infer<typeof LotPackageAnswer>;
