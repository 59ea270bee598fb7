import { Instant } from '@breakbook/lab';
import { z } from 'zod';

const Size = z.number().int().min(1);
const Digest = z.string().regex(/^[0-9a-f]{64}$/);
const Proof = z.array(Digest);
const Tree = z.strictObject({ size: Size, root: Digest });

/** A size in an address, as decimal text. */
const SizeText = z
  .string()
  .regex(/^[1-9]\d{0,8}$/, { error: 'must be a number of entries, from 1' })
  .transform(Number)
  .meta({ wire: { type: 'integer', minimum: 1 } });

export const LedgerKeyAnswer = z.strictObject({ origin: z.string(), key: z.string() });
export type LedgerKeyAnswer = z.infer<typeof LedgerKeyAnswer>;

export const CheckpointAnswer = z.strictObject({
  at: Instant,
  size: Size,
  root: Digest,
  /** The public half of the key that signed it, as one line. */
  key: z.string(),
  /** The signed note itself: what is kept elsewhere. */
  note: z.string(),
});
export type CheckpointAnswer = z.infer<typeof CheckpointAnswer>;

/** A checkpoint that was kept elsewhere. */
export const CheckpointKept = z.strictObject({ note: z.string().min(1).max(10_000), key: z.string().min(1).max(500) });
export type CheckpointKept = z.infer<typeof CheckpointKept>;

export const CheckpointCompared = z.discriminatedUnion('holds', [
  z.strictObject({
    holds: z.literal(true),
    earlier: Tree,
    now: Tree,
    /** Shows it to whoever does not take our word (RFC 9162, 2.1.4). */
    proof: Proof,
  }),
  z.strictObject({ holds: z.literal(false), earlier: Tree, now: Tree, because: z.string() }),
]);
export type CheckpointCompared = z.infer<typeof CheckpointCompared>;

export const ConsistencyAsked = z.strictObject({ from: SizeText, to: SizeText.optional() });
export type ConsistencyAsked = z.infer<typeof ConsistencyAsked>;

export const ConsistencyAnswer = z.strictObject({ earlier: Tree, later: Tree, proof: Proof });
export type ConsistencyAnswer = z.infer<typeof ConsistencyAnswer>;

export const SizeAsked = z.strictObject({ size: SizeText.optional() });
export type SizeAsked = z.infer<typeof SizeAsked>;

export const InclusionAnswer = z.strictObject({
  /** The entry, letter by letter, and the hash it is a leaf by. */
  text: z.string(),
  hash: Digest,
  /** Its place in the tree, counted from 0. */
  leaf: z.number().int().min(0),
  size: Size,
  root: Digest,
  proof: Proof,
});
export type InclusionAnswer = z.infer<typeof InclusionAnswer>;
