import { type LimitRef } from './limits.js';
import { type NotEvaluated } from './not-evaluated.js';
import { type CriterionOutcome, type LotOutcome, type Validity, type VerdictOutcome } from './outcomes.js';
import { type CharacteristicValue, type Step } from './results.js';

/** A characteristic of a run after the examination: what it says of the part under test. */
export interface Result {
  characteristic: string;
  title: string;
  unit: string;
  reference?: 'gauge' | 'absolute';
  value: CharacteristicValue | NotEvaluated;
  uncertainty?: { expanded: number; k: number };
  /** Why it is exact or known from one side only. */
  because: string;
  /** First failure mode, where something gave way. */
  mode?: string;
  /** Counted as a failure of the part, the cautious side, because it was not found sound. */
  cautious?: true;
}

/** One result against one limit. */
export interface Verdict {
  limit: LimitRef;
  characteristic: string;
  outcome: VerdictOutcome;
  external: boolean;
  /** Undefined where the result could not be evaluated. */
  value?: CharacteristicValue;
  uncertainty?: { expanded: number; k: number };
  unit: string;
  /** The limit in `unit`, and the limit moved by the guard band. */
  limitValue: { lower?: number; upper?: number };
  acceptance: { lower?: number; upper?: number };
  guardBand: number;
  /** Distance of the value from the nearest limit, positive on the safe side. */
  margin?: number;
  /** One sentence with the rule and the numbers. */
  sentence: string;
  because?: string;
  possibleIf?: string;
}

/** What `judgeRun` says of one run under one plan revision. */
export interface RunJudgement {
  run: string;
  specimen: string;
  planLine: string;
  validity: Validity | 'not decided';
  validityReason?: string;
  results: Result[];
  verdicts: Verdict[];
}

/** Where a run stands in the claim. */
export interface ClaimEntry {
  run: string;
  specimen: string;
  inClaim: boolean;
  /** Why it is left out; empty where it is in. */
  because: string;
  result?: Result;
}

export interface CriterionResult {
  criterion: string;
  kind: string;
  /** What it claims, as a sentence. */
  statement: string;
  outcome: CriterionOutcome;
  limit: LimitRef;
  external: boolean;
  unit: string;
  limitValue: number;
  numbers: Record<string, number | string>;
  /** The lower bound, where the criterion has one. */
  bound?: {
    value: number;
    estimate: number;
    coverage: number;
    confidence: number;
    technique: string;
    achievedConfidence: number;
  };
  /** The same with every mode counted as failure, where modes were told apart. */
  boundAllModes?: { value: number } | NotEvaluated;
  /** Why not evaluated, not met or not yet decidable. */
  because?: string;
  possibleIf?: string;
  steps: Step[];
}

export interface LineResult {
  line: string;
  characteristic: string;
  title: string;
  unit: string;
  planned: number;
  counts: {
    runs: number;
    valid: number;
    withDeviation: number;
    invalid: number;
    notDecided: number;
    void: number;
    inClaim: number;
  };
  entries: ClaimEntry[];
  /** Weibull fit of the claim, for figure and table. */
  weibull: WeibullSummary | NotEvaluated;
  summary: { n: number; mean: number; sd: number; min: number; max: number } | NotEvaluated;
  criteria: CriterionResult[];
  outcome: LotOutcome;
}

export interface WeibullSummary {
  n: number;
  failures: number;
  shape: number;
  scale: number;
  shapeLimits: [number, number] | NotEvaluated;
  confidence: number;
}

/** What `judgeLot` says: what the lot will hold, and how surely. */
export interface LotResult {
  lot: string;
  plan: { plan: string; revision: number };
  outcome: LotOutcome;
  /** One sentence that says why. */
  sentence: string;
  lines: LineResult[];
  /** Facts a reader must know beside the number: hand-picked specimens, several modes, external limits failed. */
  notes: string[];
  software: string;
}
