import { type Distribution, type NotEvaluated, notEvaluated, type Sample } from '@breakbook/lab';
import { requireCount, requireFraction } from '../requirements.js';
import { conditionalWeibullBound } from './conditional-weibull-bound.js';
import { likelihoodRatioWeibullBound } from './likelihood-ratio-bound.js';
import { noncentralTBound } from './noncentral-t-bound.js';
import { orderStatisticBound } from './order-statistic-bound.js';

/** How a bound is found. */
export const TECHNIQUES = ['noncentral-t', 'conditional', 'order-statistic', 'likelihood-ratio'] as const;
export type Technique = (typeof TECHNIQUES)[number];

export interface LowerToleranceRequest {
  /** Strengths in one unit. */
  sample: Sample;
  /** Share of the population that is to lie above the bound, a fraction. */
  coverage: number;
  confidence: number;
  distribution: Distribution;
  /** Left out, the technique recommended for this distribution is taken. */
  technique?: Technique | undefined;
  /** Units in the lot, those tested included, where the claim is about this lot alone. */
  lotSize?: number | undefined;
}

export interface LowerToleranceBound {
  method: 'lower tolerance bound';
  /** With `confidence`, at least `coverage` of the population is stronger than this. In the unit of the sample. */
  bound: number;
  /** The strength that a share `coverage` exceeds, as best estimated. In the unit of the sample. */
  estimate: number;
  technique: Technique;
  distribution: Distribution;
  coverage: number;
  confidence: number;
  /** The confidence the technique really gives, where it can be said. */
  achievedConfidence: number | NotEvaluated;
  /** What the claim is about: the process the specimens came from, or the lot of `lotSize` units. */
  population: 'process' | 'lot';
  /** False where the bound serves for comparison only and no acceptance may rest on it. */
  forAcceptance: boolean;
  n: number;
  failures: number;
  assumptions: string[];
  /** Standard deviations below the mean (noncentral t), of ln strength where that is normal. */
  factor?: number;
  /** Which of the strengths, from the weakest, is the bound (order statistic). */
  rank?: number;
  lotSize?: number;
}

/** What one technique adds to the request it answers. */
export type Found = Pick<LowerToleranceBound, 'bound' | 'estimate' | 'achievedConfidence' | 'n' | 'failures'> &
  Pick<LowerToleranceBound, 'assumptions' | 'factor' | 'rank'> & { population?: 'lot'; forAcceptance?: false };

/** The part of a request every technique needs. */
export type Aim = Pick<LowerToleranceRequest, 'sample' | 'coverage' | 'confidence' | 'lotSize'>;

type Answer = (aim: Aim) => Found | NotEvaluated;

/** The technique recommended for each distribution first. */
const SERVING: Record<Distribution, Partial<Record<Technique, Answer>>> = {
  normal: { 'noncentral-t': (aim) => noncentralTBound(aim, 'normal') },
  lognormal: { 'noncentral-t': (aim) => noncentralTBound(aim, 'lognormal') },
  weibull: { conditional: conditionalWeibullBound, 'likelihood-ratio': likelihoodRatioWeibullBound },
  'distribution-free': { 'order-statistic': orderStatisticBound },
};

/**
 * What strength does at least this share of the population exceed, with this confidence?
 *
 * The distribution is declared beforehand; each has the techniques that are exact for it, and the
 * recommended one is taken unless another is asked for. Where none is exact for the sample at hand
 * the answer is "not evaluated", never an approximation. Each technique states its formula, its
 * assumptions and its source in its own file.
 */
export function lowerToleranceBound(request: LowerToleranceRequest): LowerToleranceBound | NotEvaluated {
  const { coverage, confidence, distribution, lotSize } = request;
  requireFraction('lowerToleranceBound', { coverage, confidence });
  if (lotSize !== undefined) requireCount('lowerToleranceBound', { lotSize }, 1);

  const serving = SERVING[distribution];
  const names = Object.keys(serving) as Technique[];
  const technique = request.technique ?? (names[0] as Technique);
  const answer = serving[technique];
  if (answer === undefined)
    return notEvaluated(
      `the technique ${technique} does not serve a ${distribution} bound here`,
      `the technique is ${names.join(' or ')}, or left out`,
    );

  const found = answer(request);
  if ('notEvaluated' in found) return found;
  const { population = 'process', forAcceptance = true, assumptions, ...numbers } = found;
  return {
    method: 'lower tolerance bound',
    ...numbers,
    technique,
    distribution,
    coverage,
    confidence,
    population,
    forAcceptance,
    ...(lotSize === undefined ? {} : { lotSize }),
    assumptions: [
      'specimens are independent and drawn at random from the population',
      ...assumptions,
      ...(lotSize !== undefined && population === 'process'
        ? [
            `the bound speaks of the process the specimens came from; the size of the lot (${lotSize}) does not enter, ` +
              'because only a count or an order statistic has a finite form',
          ]
        : []),
    ],
  };
}
