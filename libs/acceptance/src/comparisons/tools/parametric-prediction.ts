import { isNotEvaluated, type NotEvaluated, notEvaluated } from '@breakbook/lab';
import {
  type Cell,
  calibrateLots,
  chanceOfScore,
  criticalScore,
  estimateNormal,
  estimateWeibull,
  futureSpread,
  type LotsCalibrationQuestion,
  lotsSummary,
  offAtScore,
  scatterWeights,
  scoreOf,
  smallestShift,
} from '@breakbook/statistics';
import { remembered } from '../../remembered.js';
import { endsOf } from '../ends.js';
import { confidenceAt, inUnit, levelInWords } from '../words.js';

import { type Bounds, comparedOf, type Predicted, type PredictionQuestion } from './predicted.js';
import { predictionSteps } from './prediction-steps.js';
import { type ReferenceNumbers, referenceNumbers, scaleOf } from './reference-numbers.js';

/** Calibrations depend on the design alone, not on the values: a design once simulated is known. */
const calibrated = remembered(12, calibrateLots);
const shiftFor = remembered(
  600,
  (asked: { question: LotsCalibrationQuestion; cell: Cell; critical: number; power: number }) => ({
    shift: smallestShift(asked.question, asked.cell, asked.critical, asked.power),
  }),
);

/** A million times the reference, or a millionth of it, is no value that anything could be measured at. */
const BEYOND = Math.log(1e6);
const TOO_FAR = notEvaluated(
  'lots of the reference scatter so that the bound lies beyond anything that could be measured',
  'more lots are tested, or the confidence is lower',
);

/**
 * Bounds for units of lots that vary, or of one population, under a declared distribution: how far a value lies from the
 * mean of the reference, in the scatter that the reference shows between and within lots, against the same of seeded
 * comparisons of this very design in which nothing differs (see `calibrateLots`).
 */
export function parametricPrediction(question: PredictionQuestion): Predicted | NotEvaluated {
  const { tool, items, comparison, declared } = question;
  const scale = scaleOf(tool.distribution);
  const numbers = referenceNumbers(question, scale);
  if (isNotEvaluated(numbers)) return numbers;
  const { sizes, values, survivors } = numbers;
  const design: LotsCalibrationQuestion = {
    sizes,
    items: items.length,
    of: tool.of,
    family: tool.distribution === 'weibull' ? 'smallest extreme value' : 'normal',
    survivors,
    side: tool.side,
    rigs: declared.betweenRigs !== undefined,
    seed: comparison.seed,
  };
  const summary = lotsSummary(values, sizes);
  const rigs = ((declared.betweenRigs?.u ?? 0) / (scale.logarithmic ? Math.exp(summary.centre) : 1)) ** 2;
  const spread = futureSpread(scatterWeights(design), summary, rigs);
  if (!(spread.variance > 0))
    return notEvaluated('all reference values are the same number', 'values are read finely enough to differ');
  if (items.some(({ value }) => scale.logarithmic && endsOf(value).high <= 0))
    return notEvaluated(
      `a value at or below 0 has no place in a ${tool.distribution} distribution`,
      'the values are above 0, or the tool names a normal distribution',
    );

  const compared = comparedOf(question, (value) =>
    value <= 0 && scale.logarithmic ? Number.NEGATIVE_INFINITY : scale.to(value),
  );
  const scores = compared.map(({ low, high }) => {
    const below = scoreOf(summary.centre - high, spread);
    const above = scoreOf(low - summary.centre, spread);
    return tool.side === 'below' ? below : tool.side === 'above' ? above : Math.max(below, above);
  });
  const calibration = calibrated(design);
  if (calibration.cells.length === 0)
    return notEvaluated(
      `${survivors} of ${values.length} reference values are known as "at least", which no simulated reference showed often enough to be judged by`,
      'more of the reference is taken to its break, or the tool is distribution-free, which honours such values as they are',
    );
  const chances = scores.map((score) => chanceOfScore(calibration, score));
  const best = chances.reduce((least, one) => (one.p < least.p ? one : least));
  const critical = (level: number) =>
    criticalScore(calibration, level) ??
    notEvaluated(
      `a level of ${levelInWords(level)} is finer than ${calibration.replicates} simulated comparisons can tell`,
      'fewer characteristics are declared, or the confidence is lower',
    );
  const bounds = (level: number): Bounds => {
    const score = critical(level);
    const off = isNotEvaluated(score) ? score : offAtScore(score, spread);
    const at = (sign: number) => {
      if (isNotEvaluated(off)) return off;
      const bound = scale.back(summary.centre + sign * off);
      return Number.isFinite(bound) && !(scale.logarithmic && off > BEYOND) ? bound : TOO_FAR;
    };
    return { ...(tool.side === 'above' ? {} : { lower: at(-1) }), ...(tool.side === 'below' ? {} : { upper: at(1) }) };
  };
  const total = totalScatter(question, numbers, summary);
  const smallest = (level: number): number | NotEvaluated => {
    const score = critical(level);
    if (isNotEvaluated(score)) return score;
    if (isNotEvaluated(total)) return total;
    const cell = { share: total.share, rigs: Number((rigs / total.sd ** 2).toPrecision(2)) };
    const { shift } = shiftFor({ question: design, cell, critical: score, power: comparison.power });
    if (shift === undefined || !Number.isFinite(shift))
      return notEvaluated(
        'no simulated reference showed what was seen often enough',
        'more units are taken to their break',
      );
    const move = shift * total.sd;
    if (!Number.isFinite(move) || (scale.logarithmic && move > BEYOND)) return TOO_FAR;
    if (!scale.logarithmic) return move;
    const centre = Math.exp(summary.centre);
    return tool.side === 'below' ? -centre * Math.expm1(-move) : centre * Math.expm1(move);
  };
  return {
    p: best.p,
    pError: best.error,
    pOf: chances.map(({ p }) => p),
    compared: compared.map(({ low, high }) => ({ low: scale.back(low), high: scale.back(high) })),
    bounds,
    smallest,
    steps: (level) =>
      predictionSteps(question, {
        numbers,
        summary,
        spread,
        rigs,
        scores,
        chances,
        level,
        critical: critical(level),
        bounds: bounds(level),
        smallest: smallest(level),
        replicates: calibration.replicates,
        confidence: confidenceAt(level),
        printed: (value) => inUnit(value, question),
        scale,
      }),
  };
}

/** Total scatter of one unit about the mean of all lots, and the share of its variance between lots, in steps of 0.05. */
function totalScatter(
  { tool, reference }: PredictionQuestion,
  { sizes, survivors }: ReferenceNumbers,
  { between, within }: { between: number; within: number },
): { sd: number; share: number } | NotEvaluated {
  const inverse = sizes.reduce((sum, size) => sum + 1 / size, 0) / sizes.length;
  const ofLots = sizes.length === 1 ? 0 : Math.max(0, between - inverse * within);
  const share = Math.round((20 * ofLots) / (ofLots + within)) / 20;
  if (survivors === 0) return { sd: Math.sqrt(ofLots + within), share };
  const sample = { exact: [] as number[], atLeast: [] as number[] };
  for (const { value } of reference) {
    const { low } = endsOf(value);
    sample[value.kind === 'atLeast' ? 'atLeast' : 'exact'].push(
      tool.distribution === 'lognormal' ? Math.log(low) : low,
    );
  }
  if (tool.distribution === 'weibull') {
    const fit = estimateWeibull(sample);
    return isNotEvaluated(fit) ? fit : { sd: Math.PI / Math.sqrt(6) / fit.shape, share };
  }
  const fit = estimateNormal(sample);
  return isNotEvaluated(fit) ? fit : { sd: fit.sd, share };
}
