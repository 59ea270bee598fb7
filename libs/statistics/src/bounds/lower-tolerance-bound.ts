import { type Distribution, type NotEvaluated, notEvaluated, type Sample } from '@breakbook/lab';
import { requireCount, requireFraction } from '../requirements.js';
import { bootstrapBound } from './bootstrap-bound.js';
import { calibratedBound } from './calibrated-bound.js';
import { conditionalBound } from './conditional-bound.js';
import { hansonKoopmansTechnique } from './hanson-koopmans-technique.js';
import { likelihoodRatioBound } from './likelihood-ratio-bound.js';
import { noncentralTBound } from './noncentral-t-bound.js';
import { orderStatisticBound } from './order-statistic-bound.js';
import { whyNotConditional } from './why-not-conditional.js';

/** How a bound is found. */
export const TECHNIQUES = [
  'noncentral-t',
  'conditional',
  'order-statistic',
  'hanson-koopmans',
  'calibrated',
  'likelihood-ratio',
  'bootstrap',
] as const;
export type Technique = (typeof TECHNIQUES)[number];

export interface LowerToleranceRequest {
  /** Strengths in one unit. */
  sample: Sample;
  /** Share of the population that is to lie above the bound, a fraction. */
  coverage: number;
  confidence: number;
  distribution: Distribution;
  /** Left out, the technique recommended for this distribution and this sample is taken. */
  technique?: Technique | undefined;
  /** Units in the lot, those tested included, where the claim is about this lot alone. */
  lotSize?: number | undefined;
  /** Where a simulation starts, and how many tests it draws; for the techniques that simulate. */
  seed?: number | undefined;
  replicates?: number | undefined;
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
  /** Which of the strengths, from the weakest, is the bound (order statistic) or stands in it (Hanson-Koopmans). */
  rank?: number;
  lotSize?: number;
  /** Standard error of `achievedConfidence` (calibrated) or of the bound (bootstrap), by simulation. */
  simulationError?: number;
  seed?: number;
  replicates?: number;
  /** Share of the simulated tests that gave no bound and are left out. */
  shareNotEvaluated?: number;
  /** The level at which the bound was taken, where that had to be above `confidence` (calibrated). */
  level?: number;
}

/** What one technique adds to the request it answers. */
export type Found = Pick<LowerToleranceBound, 'bound' | 'estimate' | 'achievedConfidence' | 'n' | 'failures'> &
  Pick<LowerToleranceBound, 'assumptions' | 'factor' | 'rank'> &
  Pick<LowerToleranceBound, 'simulationError' | 'seed' | 'replicates' | 'shareNotEvaluated' | 'level'> & {
    population?: 'lot';
    forAcceptance?: false;
  };

/** The part of a request every technique needs. */
export type Aim = Pick<LowerToleranceRequest, 'sample' | 'coverage' | 'confidence' | 'lotSize' | 'seed' | 'replicates'>;

type Answer = (aim: Aim) => Found | NotEvaluated;

/** Fewer say too little of a confidence. */
export const FEWEST_REPLICATES = 500;

/** The techniques that serve each distribution. */
const SERVING: Record<Distribution, Partial<Record<Technique, Answer>>> = {
  normal: { 'noncentral-t': (aim) => noncentralTBound(aim, 'normal'), ...likelihoodTechniques('normal') },
  lognormal: { 'noncentral-t': (aim) => noncentralTBound(aim, 'lognormal'), ...likelihoodTechniques('lognormal') },
  weibull: likelihoodTechniques('weibull'),
  'distribution-free': { 'order-statistic': orderStatisticBound, 'hanson-koopmans': hansonKoopmansTechnique },
};

function likelihoodTechniques(distribution: 'normal' | 'lognormal' | 'weibull'): Partial<Record<Technique, Answer>> {
  return {
    conditional: (aim) => conditionalBound(aim, distribution),
    calibrated: (aim) => calibratedBound(aim, distribution),
    'likelihood-ratio': (aim) => likelihoodRatioBound(aim, distribution),
    bootstrap: (aim) => bootstrapBound(aim, distribution),
  };
}

/** The technique taken where none is asked for: an exact one if there is one for this sample, or else the calibrated. */
function recommended({ distribution, sample }: LowerToleranceRequest): Technique {
  if (distribution === 'distribution-free') return 'order-statistic';
  if (whyNotConditional(sample)) return 'calibrated';
  const complete = (sample.atLeast ?? []).length === 0;
  return complete && distribution !== 'weibull' ? 'noncentral-t' : 'conditional';
}

/**
 * What strength does at least this share of the population exceed, with this confidence?
 *
 * The distribution is declared beforehand. An exact technique is taken where there is one for the sample
 * at hand, and otherwise one whose coverage is simulated and stated; where that falls short the answer is
 * "not evaluated". Another technique is taken if it is asked for; those for comparison only say so. Each
 * states its formula, its assumptions and its source in its own file.
 */
export function lowerToleranceBound(request: LowerToleranceRequest): LowerToleranceBound | NotEvaluated {
  const { coverage, confidence, distribution, lotSize } = request;
  requireFraction('lowerToleranceBound', { coverage, confidence });
  if (lotSize !== undefined) requireCount('lowerToleranceBound', { lotSize }, 1);
  if (request.replicates !== undefined)
    requireCount('lowerToleranceBound', { replicates: request.replicates }, FEWEST_REPLICATES);

  const serving = SERVING[distribution];
  const names = Object.keys(serving) as Technique[];
  const technique = request.technique ?? recommended(request);
  const answer = serving[technique];
  if (answer === undefined)
    return notEvaluated(
      `the technique ${technique} does not serve a ${distribution} bound here`,
      `the technique is ${names.join(' or ')}, or left out`,
    );

  const found = answer(request);
  if ('notEvaluated' in found) return found;
  if (![found.bound, found.estimate, found.simulationError ?? 0].every(Number.isFinite))
    return notEvaluated(
      'the strengths scatter over so many powers of ten that the bound lies beyond every number',
      'the strengths are in one unit, and the coverage and the confidence are such as a plan asks',
    );
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
