import { z } from 'zod';
import { ConcessionBounds, ConcessionKind, ConcessionState } from './concessions.js';
import { LimitRef } from './limits.js';
import { NonconformitySource, NonconformityState } from './nonconformities.js';
import { OpinionShown } from './opinions.js';
import { DispositionOutcome, LotOutcome, Validity, VerdictOutcome } from './outcomes.js';
import { PlanRef } from './plans.js';
import { SafetyFlagShown } from './safety-flags.js';
import { Day, Instant, Key, Line, Paragraph } from './text.js';

const Sha256 = z.string().regex(/^[0-9a-f]{64}$/);

/** How a disposition stands: with a second decider still to sign, in force, or replaced by a later one. */
export const DispositionState = z.enum(['waits for a second decider', 'in force', 'replaced']);
export type DispositionState = z.infer<typeof DispositionState>;

/** A signature: who, when, in what meaning, and the digest of exactly what was shown (compare 21 CFR 11.50 and 11.70). */
export const Signature = z.strictObject({
  person: Key,
  /** As it was printed when it was signed. */
  name: Line,
  role: Line,
  at: Instant,
  meaning: Paragraph,
  shown: Sha256,
});
export type Signature = z.infer<typeof Signature>;

/** What was decided about a lot. */
export const Disposition = z.strictObject({
  number: z.number().int().min(1),
  lot: Key,
  evaluation: z.number().int(),
  outcome: DispositionOutcome,
  state: DispositionState,
  reason: Paragraph,
  /** How many people must sign it. */
  deciders: z.number().int().min(1).max(2),
  replaces: z.number().int().optional(),
  signatures: z.array(Signature),
});
export type Disposition = z.infer<typeof Disposition>;

/** A run as whoever decides must see it, whatever became of it. */
export const RunOnDisposition = z.strictObject({
  run: Key,
  specimen: Key,
  line: Key,
  startedAt: Instant,
  operator: Key,
  validity: z.enum([...Validity.options, 'not decided']),
  validityReason: z.string().optional(),
  decidedBy: Key.optional(),
  reviewedBy: Key.optional(),
  inClaim: z.boolean(),
  /** Why it makes no claim; empty where it does. */
  because: z.string(),
  verdicts: z.array(z.strictObject({ limit: LimitRef, outcome: VerdictOutcome, external: z.boolean() })),
  /** Which run of this specimen it is, from 1. */
  attempt: z.number().int().min(1),
});
export type RunOnDisposition = z.infer<typeof RunOnDisposition>;

/** How often was tried: runs of a plan line, by what became of them. */
export const AttemptsOfLine = z.strictObject({
  line: Key,
  planned: z.number().int(),
  runs: z.number().int(),
  valid: z.number().int(),
  invalid: z.number().int(),
  void: z.number().int(),
  notDecided: z.number().int(),
  inClaim: z.number().int(),
  /** Valid runs that the plan did not ask for. */
  unplanned: z.array(Key),
});
export type AttemptsOfLine = z.infer<typeof AttemptsOfLine>;

export const LotAttempts = z.strictObject({
  lines: z.array(AttemptsOfLine),
  /** Specimens with more than one run that counts. */
  repeated: z.array(z.strictObject({ specimen: Key, runs: z.array(Key) })),
  /** Valid failures followed by unplanned passes; each follows the lot to its report. */
  marks: z.array(z.string()),
});
export type LotAttempts = z.infer<typeof LotAttempts>;

/** What keeps a lot from being disposed of, and what to do about it. */
export const Blocker = z.strictObject({ what: z.string(), action: z.string() });
export type Blocker = z.infer<typeof Blocker>;

/** An outcome a lot could be given, and why it can be or not. */
export const OutcomeOffered = z.strictObject({
  outcome: DispositionOutcome,
  possible: z.boolean(),
  because: z.string(),
  deciders: z.number().int().min(1).max(2),
});
export type OutcomeOffered = z.infer<typeof OutcomeOffered>;

/**
 * Everything that whoever decides about a lot is shown, and so everything a signature covers: its digest is that of its
 * canonical JSON (RFC 8785).
 */
export const DispositionSheet = z.strictObject({
  sheet: z.literal('disposition 1'),
  lot: Key,
  product: Line,
  size: z.number().int(),
  plan: PlanRef,
  use: Line,
  evaluation: z
    .strictObject({
      number: z.number().int(),
      outcome: LotOutcome,
      sentence: z.string(),
      at: Instant,
      software: z.string(),
      notes: z.array(z.string()),
      criteria: z.array(z.strictObject({ line: Key, criterion: Key, statement: z.string(), outcome: z.string() })),
    })
    .optional(),
  runs: z.array(RunOnDisposition),
  untested: z.array(Key),
  attempts: LotAttempts.optional(),
  retests: z.array(
    z.strictObject({
      number: z.number().int(),
      line: Key,
      runs: z.number().int(),
      used: z.array(Key),
      reason: Paragraph,
      by: Key,
    }),
  ),
  nonconformities: z.array(
    z.strictObject({
      number: z.number().int(),
      title: Line,
      source: NonconformitySource,
      state: NonconformityState,
      due: Day.optional(),
    }),
  ),
  concessions: z.array(
    z.strictObject({
      number: z.number().int(),
      kind: ConcessionKind,
      state: ConcessionState,
      expired: z.boolean(),
      limit: LimitRef.optional(),
      departure: Paragraph,
      bounds: ConcessionBounds,
      until: Day,
      risk: Paragraph,
      requestedBy: Key,
      by: Key,
    }),
  ),
  /** Product-safety flags on the lot, open and closed. */
  safetyFlags: z.array(SafetyFlagShown).optional(),
  /** Until which day records and remnants are kept, where it was said. */
  keeping: z.strictObject({ recordsUntil: Day, remnantsUntil: Day }).optional(),
  /** Legal holds in force on the lot or specimens of it. */
  legalHolds: z.array(z.strictObject({ number: z.number().int(), reference: Line })).optional(),
  /** Sheets signed before there were opinions have none. */
  opinions: z.array(OpinionShown).optional(),
  missing: z.array(Blocker),
  outcomes: z.array(OutcomeOffered),
  dispositions: z.array(Disposition),
});
export type DispositionSheet = z.infer<typeof DispositionSheet>;
