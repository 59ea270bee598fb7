import type { NotEvaluated } from '../not-evaluated.js';
import type { CharacteristicValue, Step } from '../results.js';
import type { ComparisonRef, ComparisonTool, DeclaredCharacteristic } from './declarations.js';
import type { Feature } from './observations.js';
import type { ReferenceRef } from './references.js';

/** How well items agree with the reference, and no more than that. Letters are for lists; what is said is the sentence. */
export const COMPARISON_LEVELS = {
  A: 'not consistent, physical',
  B: 'not consistent, measured',
  C: 'inconclusive',
  D: 'consistent',
  E: 'no comparison',
} as const;
export type ComparisonLevel = keyof typeof COMPARISON_LEVELS;

/** One value that was compared, with what it rests on. */
export interface ComparedValue {
  specimen: string;
  lot: string;
  /** The run it comes from; left out where the examination gave it. */
  run?: string;
  value: CharacteristicValue;
  /** Expanded uncertainty in the unit of the comparison, where the method states it. */
  uncertainty?: { expanded: number; k: number };
  mode?: string;
}

/** A run or specimen that gave no value, and why. */
export interface LeftOut {
  specimen: string;
  run?: string;
  because: string;
}

/** What was found of one item under a characteristic; E where its custody or condition prevents comparison. */
export interface ItemFinding {
  specimen: string;
  level: ComparisonLevel;
  sentence: string;
}

/** One declared characteristic: all its numbers, at the level that the correction leaves it. */
export interface CharacteristicComparison {
  name: string;
  title: string;
  unit?: string;
  source: DeclaredCharacteristic['source'];
  tool: ComparisonTool;
  /** Reference or first group; items or second group. */
  reference: ComparedValue[];
  items: ComparedValue[];
  leftOut: LeftOut[];
  /** How many lots the reference values come from. */
  lots: number;
  /** Chance of values at least as far off, where nothing differs. */
  p: number | NotEvaluated;
  /** Standard error of p where it is simulated. */
  pError?: number;
  /** The level this p is held to after correction, 1 - confidence for one characteristic alone. */
  level: number;
  /** What future units of the reference's kind keep within, at that level. */
  bounds?: { lower?: number | NotEvaluated; upper?: number | NotEvaluated };
  /** Second less first, with two-sided limits at 1 - level. */
  effect?: { difference: number; limits: [number, number] | NotEvaluated };
  /** The difference, in `unit`, that would have been found with the declared power. */
  smallestDifference?: number | NotEvaluated;
  /** Chance of the items' values if made as the reference, over that if made as the alternative; and the words for it. */
  likelihoodRatio?: { ratio: number; words: string; sentence: string } | NotEvaluated;
  /** For modes: how often each was found on either side. */
  modes?: { mode: string; reference: number; items: number }[];
  /** B, C, D or E. */
  finding: ComparisonLevel;
  sentence: string;
  each: ItemFinding[];
  steps: Step[];
}

/** One feature looked at: what was seen on the reference, in the build records and on each item. */
export interface FeatureComparison {
  feature: Feature;
  /** What was seen, how often. */
  reference: { seen: string; units: number }[];
  variants: string[];
  items: { specimen: string; seen?: string; level: ComparisonLevel; sentence: string }[];
  finding: ComparisonLevel;
  sentence: string;
}

/** Something in an item's custody that does not join up, told as it is. */
export interface CustodyGap {
  specimen: string;
  after?: string;
  before?: string;
  sentence: string;
}

export interface ItemConclusion {
  specimen: string;
  level: ComparisonLevel;
  sentence: string;
}

/** What a comparison came to: every declared characteristic and feature, whatever it showed. */
export interface ComparisonResult {
  comparison: ComparisonRef;
  reference?: ReferenceRef;
  level: ComparisonLevel;
  /** All that is concluded, a sentence each. */
  sentences: string[];
  items: ItemConclusion[];
  features: FeatureComparison[];
  characteristics: CharacteristicComparison[];
  gaps: CustodyGap[];
  notExamined: string[];
  notes: string[];
  /** Revisions before this one, each with the reason it was left for. */
  earlierRevisions: { revision: number; declaredAt: string; reason: string }[];
  software: string;
}
