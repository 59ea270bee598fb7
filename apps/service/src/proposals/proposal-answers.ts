import { Day, Instant, Key, Layout, Limit, Line, Method, Paragraph, Plan, PlanInWords } from '@breakbook/lab';
import { z } from 'zod';
import { PAGING } from '../records/paging.js';

const Sha256 = z.string().regex(/^[0-9a-f]{64}$/, { error: 'must be 64 hexadecimal digits in lower case' });

export const ProposalsAsked = z.strictObject({ ...PAGING, state: z.enum(['waiting', 'any']).optional() });
export type ProposalsAsked = z.infer<typeof ProposalsAsked>;

/** A revision that one person put before another. */
export const ProposalInList = z.strictObject({
  number: z.number().int().min(1),
  noun: z.enum(['method', 'layout', 'limit', 'plan']),
  key: Key,
  revision: z.number().int().min(1),
  title: Line,
  state: z.enum(['waiting', 'approved', 'declined']),
  proposedBy: Key,
  proposedAt: Instant,
  /** Why the thing is revised; a first revision needs no reason. */
  reason: Paragraph.optional(),
  /** Who may approve it. */
  before: z.array(Key),
  decidedBy: Key.optional(),
  decidedAt: Instant.optional(),
  inForceFrom: Day.optional(),
  /** Why it was declined. */
  because: Paragraph.optional(),
});
export type ProposalInList = z.infer<typeof ProposalInList>;

/** The same with all that is decided about. */
export const ProposalAnswer = ProposalInList.extend({
  content: z.union([Method, Layout, Limit, Plan]),
  /** What a plan asks for, sentence by sentence; left out where the proposal is of something else. */
  planInWords: PlanInWords.optional(),
  /** SHA-256 of the content in canonical JSON (RFC 8785): what an approval signs. */
  sha256: Sha256,
  /** The approved revision before it; left out where there is none. */
  follows: z.number().int().min(1).optional(),
  /** Where the content differs from that revision, member by member; all of it where there is none. */
  differences: z.array(
    z.strictObject({ pointer: z.string(), place: z.string(), kept: z.string().optional(), now: z.string().optional() }),
  ),
});
export type ProposalAnswer = z.infer<typeof ProposalAnswer>;

/** What was shown to whoever approves, by its digest. */
export const Approval = z.strictObject({ shown: Sha256 });
export type Approval = z.infer<typeof Approval>;

export const Declining = z.strictObject({ shown: Sha256, because: Paragraph });
export type Declining = z.infer<typeof Declining>;
