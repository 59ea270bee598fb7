import { z } from 'zod';
import { Inspection, LimitRef } from './limits.js';
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

/** Where a value lies: on which side of the limit, and whether within the guard band of it. */
export const Zone = z.enum([
  'inside the limit',
  'inside the limit, within the guard band',
  'outside the limit, within the guard band',
  'outside the limit',
]);
export type Zone = z.infer<typeof Zone>;

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
  zone: Zone.optional(),
  /** That the quantity itself lies within the limit, given the value and its uncertainty (JCGM 106:2012, 7). */
  probabilityOfConformance: z.union([z.number(), NotEvaluated]).optional(),
  /** In place of an uncertainty, where signs were looked for. */
  inspection: Inspection.optional(),
  /** One sentence with the rule and the numbers. */
  sentence: z.string(),
  because: z.string().optional(),
  possibleIf: z.string().optional(),
  /** How it came about; left out in verdicts of before steps were kept. */
  steps: z.array(Step).optional(),
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

/** Earlier lots beside this one: what the declared test said of them, and whether they entered the bound. */
export const PooledLots = z.strictObject({
  lots: z.array(
    z.strictObject({
      lot: z.string(),
      n: z.number().int(),
      /** Which evaluation of that lot the values are of, where they come from one. */
      evaluation: z.string().optional(),
    }),
  ),
  /** Values of all lots together, this one included. */
  n: z.number().int(),
  test: z.union([
    z.strictObject({
      name: z.string(),
      statistic: z.number(),
      critical: z.number(),
      level: z.number(),
      p: z.number(),
      same: z.boolean(),
    }),
    NotEvaluated,
  ]),
  /** How often the test would see a shift of the mean that matters, between lots of these sizes; simulated. */
  power: z.union([
    z.strictObject({
      shift: z.number(),
      probability: z.number(),
      error: z.number(),
      seed: z.number(),
      replicates: z.number(),
    }),
    NotEvaluated,
  ]),
  /** Did the earlier lots enter the bound? */
  used: z.boolean(),
  because: z.string(),
  /** All of it in words, for screen and paper. */
  sentence: z.string().optional(),
});
export type PooledLots = z.infer<typeof PooledLots>;

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
  pooled: PooledLots.optional(),
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

/** A value that lies farther from the others than normal scatter explains: looked into, shown with and without, never dropped. */
export const OutlierFinding = z.strictObject({
  run: z.string(),
  specimen: z.string(),
  value: z.number(),
  side: z.enum(['low', 'high']),
  statistic: z.number(),
  critical: z.number(),
  level: z.number(),
  /** The bound of each criterion that has one, with every value and without this one. */
  bounds: z.array(
    z.strictObject({ criterion: z.string(), with: z.number(), without: z.union([z.number(), NotEvaluated]) }),
  ),
  sentence: z.string().optional(),
});
export type OutlierFinding = z.infer<typeof OutlierFinding>;

/** One stage of a declared schedule: what was seen when it was complete. */
export const StageResult = z.strictObject({
  stage: z.number().int(),
  /** Specimens planned up to its end, and of them in the claim. */
  planned: z.number().int(),
  inClaim: z.number().int(),
  complete: z.boolean(),
  criteria: z.array(
    z.strictObject({
      criterion: z.string(),
      outcome: CriterionOutcome,
      /** Of the criterion at this look, where it has one. */
      bound: z.number().optional(),
      /** At which confidence the bound is taken, so that the whole schedule keeps what is claimed. */
      perStageConfidence: z.number().optional(),
      failures: z.number().int().optional(),
    }),
  ),
  outcome: LotOutcome,
  sentence: z.string().optional(),
});
export type StageResult = z.infer<typeof StageResult>;

/** What the planned remainder would come to, judged by the specimens so far. */
export const Forecast = z.strictObject({
  /** Planned runs still to be made, declared stages included. */
  remaining: z.number().int(),
  /** That the line would then be met. */
  probability: z.number(),
  /** Standard error of it, by simulation. */
  error: z.number(),
  seed: z.number(),
  replicates: z.number(),
  /** What it rests on, such as the distribution assumed. */
  assumptions: z.array(z.string()),
  sentence: z.string(),
});
export type Forecast = z.infer<typeof Forecast>;

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
  outliers: z.array(OutlierFinding).optional(),
  /** Where the line has stages. */
  stages: z.array(StageResult).optional(),
  /** Only while planned runs or declared stages remain. */
  forecast: z.union([Forecast, NotEvaluated]).optional(),
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
  /** Set where the lot was looked at under another plan or limit than its own: nothing was decided by it. */
  whatIf: z.strictObject({ changed: z.array(z.string()).min(1) }).optional(),
  software: z.string(),
});
export type LotResult = z.infer<typeof LotResult>;
