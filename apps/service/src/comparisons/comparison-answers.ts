import {
  COMPARISON_LEVELS,
  COMPARISON_STATES,
  Comparison,
  type ComparisonLevel,
  ConsentOrNotice,
  Instant,
  Key,
  Line,
  Paragraph,
  Revision,
  SetAside,
  Signature,
} from '@breakbook/lab';
import { z } from 'zod';
import { PAGING } from '../records/paging.js';

const Sha256 = z.string().regex(/^[0-9a-f]{64}$/, { error: 'must be 64 hexadecimal digits in lower case' });
const count = z.number().int().min(0);

const { declaredBy: _declaredBy, declaredAt: _declaredAt, reason: _reason, ...fields } = Comparison.shape;
/** What is declared; by whom, when and, of a later revision, why is added as it is frozen. */
export const NewComparison = z.strictObject(fields);
export type NewComparison = z.infer<typeof NewComparison>;

export const ComparisonsAsked = z.strictObject({ ...PAGING, product: Key.optional(), specimen: Key.optional() });
export type ComparisonsAsked = z.infer<typeof ComparisonsAsked>;

export const ComparisonApproval = z.strictObject({ shown: Sha256 });
export type ComparisonApproval = z.infer<typeof ComparisonApproval>;
export const ComparisonDeclining = z.strictObject({ shown: Sha256, because: Paragraph });
export type ComparisonDeclining = z.infer<typeof ComparisonDeclining>;

/** One revision: who declared it, what was seen of its items by then, and what another person said of it. */
export const DeclaredRevision = z.strictObject({
  revision: Revision,
  declaredBy: Key,
  declaredAt: Instant,
  reason: Paragraph.optional(),
  /** Runs of its items, and observations of them or for it, that were there when it was declared. */
  before: z.strictObject({ runs: count, observations: count }),
  declaredAfterResults: z.boolean(),
  decision: z
    .strictObject({
      decision: z.enum(['approved', 'declined']),
      by: Key,
      at: Instant,
      because: Paragraph.optional(),
    })
    .optional(),
});
export type DeclaredRevision = z.infer<typeof DeclaredRevision>;

/** A comparison in a list, in its last revision. */
export const ComparisonInList = z.strictObject({
  comparison: Key,
  number: z.number().int().min(1),
  product: Key,
  title: Line,
  state: z.enum(COMPARISON_STATES.states),
  /** Of its items, where it compares items with a reference. */
  items: count.optional(),
  ...DeclaredRevision.shape,
});
export type ComparisonInList = z.infer<typeof ComparisonInList>;

/** What a comparison came to, locked by a signature. */
export const ConclusionShown = z.strictObject({
  /** Counted from 1. */
  conclusion: z.number().int().min(1),
  /** The result it rests on, by its short number. */
  result: z.number().int().min(1),
  level: z.enum(Object.keys(COMPARISON_LEVELS) as [ComparisonLevel, ...ComparisonLevel[]]),
  sentences: z.array(z.string()),
  signature: Signature,
  note: Paragraph.optional(),
  /** The conclusion whose place it took, and why. */
  replaces: z.number().int().min(1).optional(),
  reason: Paragraph.optional(),
  inForce: z.boolean(),
});
export type ConclusionShown = z.infer<typeof ConclusionShown>;

/** A comparison: what is declared last, what was declared before, and what was said around it. */
export const ComparisonAnswer = ComparisonInList.extend({
  version: z.number().int().min(1),
  content: Comparison,
  /** SHA-256 of the content in canonical JSON (RFC 8785): what an approval signs. */
  sha256: Sha256,
  /** The revision by which items are examined; left out where none is approved. */
  inForce: Revision.optional(),
  /** All revisions, the first one first. */
  revisions: z.array(DeclaredRevision),
  /** Where the content differs from the revision before it. */
  differences: z.array(
    z.strictObject({ pointer: z.string(), place: z.string(), kept: z.string().optional(), now: z.string().optional() }),
  ),
  /** Who may approve it, while it waits. */
  mayApprove: z.array(Key),
  consents: z.array(ConsentOrNotice),
  setAside: z.array(SetAside),
  /** The last result, by its short number; left out where none was worked out. */
  result: z.number().int().min(1).optional(),
  conclusions: z.array(ConclusionShown),
  /** You are not to know which item is which, before conclusions are locked. */
  hiddenFromYou: z.boolean(),
  withdrawn: z.strictObject({ reason: Line, by: Key, at: Instant }).optional(),
});
export type ComparisonAnswer = z.infer<typeof ComparisonAnswer>;

/** One revision whole. */
export const ComparisonRevisionAnswer = DeclaredRevision.extend({ content: Comparison, sha256: Sha256 });
export type ComparisonRevisionAnswer = z.infer<typeof ComparisonRevisionAnswer>;
