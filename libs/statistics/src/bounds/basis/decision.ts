import { isNotEvaluated, type NotEvaluated, notEvaluated } from '@breakbook/lab';
import { andersonDarling } from '../../hypotheses/anderson-darling.js';
import { equalVariance, type LeveneTest } from '../../hypotheses/equal-variance.js';
import { type KSampleAndersonDarling, kSampleAndersonDarling } from '../../hypotheses/k-sample-anderson-darling.js';

/** A distribution is doubted at an observed significance of this or less, a value is called out and scatter called unlike at it. */
export const DOUBT = 0.05;

/** Chance of calling batches unlike where they are alike, if none is asked for. */
export const USUAL_ALPHA = 0.025;

/** The distributions in the order in which they are tried. */
const TRIED = ['weibull', 'normal', 'lognormal'] as const;
export type TriedDistribution = (typeof TRIED)[number];

/** How well one distribution explains the pooled values. */
export interface Explanation {
  distribution: TriedDistribution;
  significance: number;
}

/** What the tests decided: which values are taken together, and by what the bound is formed. */
export interface Decision {
  groups: readonly (readonly number[])[];
  /** Left out where there is one batch. */
  agreement?: KSampleAndersonDarling;
  /** Batches agree, or there is one: all values are one sample. */
  pooled: boolean;
  /** Where batches do not agree: whether they scatter alike. */
  scatter?: LeveneTest | NotEvaluated;
  /** Where values are pooled: every distribution that could be tried. */
  explanations: Explanation[];
  /** The first in order that is not doubted; left out where all are, or where values are not pooled. */
  distribution?: TriedDistribution;
}

/**
 * Do the batches agree, and if so, which distribution explains them together? The k-sample Anderson-Darling test at
 * `alpha` decides the first; of Weibull, normal and lognormal the first with an observed significance above 0.05 is taken.
 *
 * Source: MIL-HDBK-17-1F (2002), volume 1, section 8.3.1 (order of the steps from memory).
 */
export function decide(groups: readonly (readonly number[])[], alpha: number): Decision | NotEvaluated {
  const values = groups.flat();
  if (groups.length === 0 || values.length === 0) return notEvaluated('there are no values', 'specimens are broken');
  let agreement: KSampleAndersonDarling | undefined;
  if (groups.length > 1) {
    const tested = kSampleAndersonDarling(groups, alpha);
    if (isNotEvaluated(tested)) return tested;
    agreement = tested;
  }
  if (agreement && !agreement.same)
    return { groups, agreement, pooled: false, scatter: equalVariance(groups, 'median'), explanations: [] };
  const explanations: Explanation[] = [];
  const positive = values.every((value) => value > 0);
  for (const distribution of TRIED) {
    if (distribution !== 'normal' && !positive) continue;
    const tested = andersonDarling({ exact: [...values] }, distribution);
    if (isNotEvaluated(tested)) return tested;
    explanations.push({ distribution, significance: tested.significance });
  }
  const taken = explanations.find(({ significance }) => significance > DOUBT);
  return {
    groups,
    ...(agreement ? { agreement } : {}),
    pooled: true,
    explanations,
    ...(taken ? { distribution: taken.distribution } : {}),
  };
}
