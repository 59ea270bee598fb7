import { z } from 'zod';
import { LimitRef } from './limits.js';
import { NotEvaluated } from './not-evaluated.js';
import { CriterionOutcome, LotOutcome, Validity, VerdictOutcome } from './outcomes.js';
import { CharacteristicValue, Step } from './results.js';

const Uncertainty = z.strictObject({ expanded: z.number(), k: z.number() });
const Bounds = z.strictObject({ lower: z.number().optional(), upper: z.number().optional() });

/** A characteristic of a run after the examination: what it says of the part under test. */
export const Result = z.strictObject({
  characteristic: z.string(),
  title: z.string(),
  unit: z.string(),
  reference: z.enum(['gauge', 'absolute']).optional(),
  value: z.union([CharacteristicValue, NotEvaluated]),
  uncertainty: Uncertainty.optional(),
  /** Why it is exact or known from one side only. */
  because: z.string(),
  /** First failure mode, where something gave way. */
  mode: z.string().optional(),
  /** Counted as a failure of the part, the cautious side, because it was not found sound. */
  cautious: z.literal(true).optional(),
});
export type Result = z.infer<typeof Result>;

/** One result against one limit. */
export const Verdict = z.strictObject({
  limit: LimitRef,
  characteristic: z.string(),
  outcome: VerdictOutcome,
  external: z.boolean(),
  /** Undefined where the result could not be evaluated. */
  value: CharacteristicValue.optional(),
  uncertainty: Uncertainty.optional(),
  unit: z.string(),
  /** The limit in `unit`, and the limit moved by the guard band. */
  limitValue: Bounds,
  acceptance: Bounds,
  guardBand: z.number(),
  /** Distance of the value from the nearest limit, positive on the safe side. */
  margin: z.number().optional(),
  /** One sentence with the rule and the numbers. */
  sentence: z.string(),
  because: z.string().optional(),
  possibleIf: z.string().optional(),
});
export type Verdict = z.infer<typeof Verdict>;

/** What `judgeRun` says of one run under one plan revision. */
export const RunJudgement = z.strictObject({
  run: z.string(),
  specimen: z.string(),
  planLine: z.string(),
  validity: z.enum([...Validity.options, 'not decided']),
  validityReason: z.string().optional(),
  results: z.array(Result),
  verdicts: z.array(Verdict),
});
export type RunJudgement = z.infer<typeof RunJudgement>;

/** Where a run stands in the claim. */
export const ClaimEntry = z.strictObject({
  run: z.string(),
  specimen: z.string(),
  inClaim: z.boolean(),
  /** Why it is left out; empty where it is in. */
  because: z.string(),
  result: Result.optional(),
});
export type ClaimEntry = z.infer<typeof ClaimEntry>;

export const CriterionResult = z.strictObject({
  criterion: z.string(),
  kind: z.string(),
  /** What it claims, as a sentence. */
  statement: z.string(),
  outcome: CriterionOutcome,
  limit: LimitRef,
  external: z.boolean(),
  unit: z.string(),
  limitValue: z.number(),
  numbers: z.record(z.string(), z.union([z.number(), z.string()])),
  /** The lower bound, where the criterion has one. */
  bound: z
    .strictObject({
      value: z.number(),
      estimate: z.number(),
      coverage: z.number(),
      confidence: z.number(),
      technique: z.string(),
      achievedConfidence: z.number(),
    })
    .optional(),
  /** The same with every mode counted as failure, where modes were told apart. */
  boundAllModes: z.union([z.strictObject({ value: z.number() }), NotEvaluated]).optional(),
  /** Why not evaluated, not met or not yet decidable. */
  because: z.string().optional(),
  possibleIf: z.string().optional(),
  steps: z.array(Step),
});
export type CriterionResult = z.infer<typeof CriterionResult>;

export const WeibullSummary = z.strictObject({
  n: z.number().int(),
  failures: z.number().int(),
  shape: z.number(),
  scale: z.number(),
  shapeLimits: z.union([z.tuple([z.number(), z.number()]), NotEvaluated]),
  confidence: z.number(),
});
export type WeibullSummary = z.infer<typeof WeibullSummary>;

export const LineResult = z.strictObject({
  line: z.string(),
  characteristic: z.string(),
  title: z.string(),
  unit: z.string(),
  planned: z.number().int(),
  counts: z.strictObject({
    runs: z.number().int(),
    valid: z.number().int(),
    withDeviation: z.number().int(),
    invalid: z.number().int(),
    notDecided: z.number().int(),
    void: z.number().int(),
    inClaim: z.number().int(),
  }),
  entries: z.array(ClaimEntry),
  /** Weibull fit of the claim, for figure and table. */
  weibull: z.union([WeibullSummary, NotEvaluated]),
  summary: z.union([
    z.strictObject({ n: z.number().int(), mean: z.number(), sd: z.number(), min: z.number(), max: z.number() }),
    NotEvaluated,
  ]),
  criteria: z.array(CriterionResult),
  outcome: LotOutcome,
});
export type LineResult = z.infer<typeof LineResult>;

/** What `judgeLot` says: what the lot will hold, and how surely. */
export const LotResult = z.strictObject({
  lot: z.string(),
  plan: z.strictObject({ plan: z.string(), revision: z.number().int() }),
  outcome: LotOutcome,
  /** One sentence that says why. */
  sentence: z.string(),
  lines: z.array(LineResult),
  /** Facts a reader must know beside the number: hand-picked specimens, several modes, external limits failed. */
  notes: z.array(z.string()),
  software: z.string(),
});
export type LotResult = z.infer<typeof LotResult>;
