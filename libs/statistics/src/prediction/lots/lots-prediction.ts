import { type NotEvaluated, notEvaluated } from '@breakbook/lab';
import { requireCount, requireFraction, requireValues } from '../../requirements.js';
import { type ComparedSide, calibrateLots, criticalScore } from './calibration.js';
import { futureSpread, lotsSummary, offAtScore, scatterWeights } from './statistic.js';

export interface LotsPredictionQuestion {
  /** Values lot by lot. */
  lots: readonly (readonly number[])[];
  distribution: 'normal' | 'lognormal' | 'weibull';
  /** How many future units, and what the bounds are for: each of them, or their mean. */
  items: number;
  of: 'each' | 'mean';
  side: ComparedSide;
  confidence: number;
  seed?: number | undefined;
}

export interface LotsPrediction {
  method: 'prediction of lots';
  n: number;
  lots: number;
  confidence: number;
  /** In the unit of the values; the side that was not asked for is left out. */
  lower?: number;
  upper?: number;
  /** Mean of the lot means, variance of the lot means, mean square within lots; of ln values unless normal. */
  centre: number;
  between: number;
  within: number;
  /** Variance of a future value about the centre, and its degrees of freedom. */
  variance: number;
  degrees: number;
  replicates: number;
  seed: number;
}

/**
 * Between what do future units keep that come from lots of their own? Bounds
 *
 *     centre -+ t sqrt(V),     V and its degrees of freedom as in `scatterWeights` and `futureSpread`
 *
 * with t calibrated by seeded simulation of just this design, at the worst share of variance between lots (see
 * `calibrateLots`). One list alone is taken for one population.
 *
 * Assumes lot means normal and units normal about them (lognormal, Weibull: of ln values; Weibull: smallest extreme values),
 * with one scatter in all lots. Smallest: 3 lots, or 3 values of one population.
 *
 * Source: Searle, Casella and McCulloch (1992), Variance Components, chapter 3; Satterthwaite (1946), Biometrics Bulletin 2,
 * 110-114; Davison and Hinkley (1997), Bootstrap Methods and their Application, section 4.2.
 */
export function lotsPrediction(question: LotsPredictionQuestion): LotsPrediction | NotEvaluated {
  const { lots, distribution, items, of, side, confidence, seed = 1 } = question;
  requireFraction('lotsPrediction', { confidence });
  requireCount('lotsPrediction', { items, seed }, 1);
  lots.forEach((values, index) => {
    requireValues('lotsPrediction', `lots[${index}]`, values);
  });
  const sizes = lots.map(({ length }) => length);
  if (sizes.includes(0)) return notEvaluated('a lot has no values', 'every lot has at least 1 value');
  if (lots.length === 0 || lots.length === 2)
    return notEvaluated(
      `${lots.length} lots do not tell how lots scatter`,
      'there are at least 3 lots, or one population',
    );
  if (lots.length === 1 && (sizes[0] as number) < 3)
    return notEvaluated(`${sizes[0]} values say too little about scatter`, 'there are at least 3 values');
  const plain = distribution === 'normal';
  if (!plain && lots.flat().some((value) => value <= 0))
    throw new RangeError(`lotsPrediction: a ${distribution} value is above 0; one of those given is not.`);
  const summary = lotsSummary(Float64Array.from(lots.flat(), plain ? (value) => value : Math.log), sizes);
  const design = {
    sizes,
    items,
    of,
    side,
    family: distribution === 'weibull' ? ('smallest extreme value' as const) : ('normal' as const),
    survivors: 0,
    rigs: false,
    seed,
  };
  const spread = futureSpread(scatterWeights(design), summary, 0);
  if (!(spread.variance > 0))
    return notEvaluated('all values are the same number', 'values are read finely enough to differ');
  const calibration = calibrateLots(design);
  const score = criticalScore(calibration, 1 - confidence);
  if (score === undefined)
    return notEvaluated(
      `so high a confidence is finer than ${calibration.replicates} simulated comparisons can tell`,
      'the confidence is lower',
    );
  const off = offAtScore(score, spread);
  const at = (value: number) => (plain ? value : Math.exp(value));
  const [lower, upper] = [at(summary.centre - off), at(summary.centre + off)];
  if (![lower, upper].every(Number.isFinite))
    return notEvaluated('the bounds lie beyond every value a number can hold', 'values scatter less');
  return {
    method: 'prediction of lots',
    n: sizes.reduce((sum, size) => sum + size, 0),
    lots: lots.length,
    confidence,
    ...(side === 'above' ? {} : { lower }),
    ...(side === 'below' ? {} : { upper }),
    ...summary,
    ...spread,
    replicates: calibration.replicates,
    seed,
  };
}
