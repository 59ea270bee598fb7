/** Published methods, one per file: what breaks, how surely, and how many must be broken to know. */
export { type AnovaBound, anovaBound } from './bounds/anova-bound.js';
export { type BasisQuestion, type BasisValue, basisValue } from './bounds/basis/basis-value.js';
export { type BinomialBound, binomialBound, type FailureCount } from './bounds/binomial-bound.js';
export { type CompetingModes, competingModes } from './bounds/competing-modes.js';
export {
  type HansonKoopmansBound,
  type HansonKoopmansFactor,
  hansonKoopmansBound,
  hansonKoopmansFactor,
} from './bounds/hanson-koopmans.js';
export {
  type LowerToleranceBound,
  type LowerToleranceRequest,
  lowerToleranceBound,
  TECHNIQUES,
  type Technique,
} from './bounds/lower-tolerance-bound.js';
export {
  type FactorQuestion,
  type NormalToleranceFactor,
  normalToleranceConfidence,
  normalToleranceFactor,
} from './bounds/normal-tolerance-factor.js';
export {
  type OrderStatistic,
  orderStatisticConfidence,
  orderStatisticRank,
  orderStatisticSize,
} from './bounds/order-statistic.js';
export { modesTogether, type SamplesByMode } from './bounds/samples-by-mode.js';
export { type ToleranceConfidence, toleranceConfidence } from './bounds/tolerance-confidence.js';
export { type WeibullKnownShapeBound, weibullKnownShapeBound } from './bounds/weibull-known-shape-bound.js';
export {
  type WeibullFactorQuestion,
  type WeibullToleranceFactor,
  weibullToleranceFactor,
} from './bounds/weibull-tolerance-factor.js';
export { type ZeroFailureBound, zeroFailureBound } from './bounds/zero-failure-bound.js';
export { listMethods, type MethodEntry, methodSchema } from './compute/catalogue.js';
export { type ComputeError, type ComputeReply, compute } from './compute/compute.js';
export { computeMethods } from './compute/registry.js';
export { type MeanLimits, meanLimits } from './description/mean-limits.js';
export * from './description/one-way-anova.js';
export { type Described, type Summary, summary } from './description/summary.js';
export { binomialCdf } from './distributions/binomial.js';
export { hypergeometricCdf } from './distributions/hypergeometric.js';
export { normalCdf, normalDensity, normalQuantile } from './distributions/normal.js';
export { type WeibullParameters, weibullCdf, weibullQuantile, weibullSurvival } from './distributions/weibull.js';
export type { FitOptions, Limit, QuantileEstimate, ReliabilityEstimate } from './fits/location-scale-fit.js';
export {
  estimateLognormal,
  fitLognormal,
  type LognormalEstimates,
  type LognormalFit,
  type LognormalParameters,
  lognormalLogLikelihood,
} from './fits/lognormal-fit.js';
export {
  estimateNormal,
  fitNormal,
  type NormalEstimates,
  type NormalFit,
  type NormalParameters,
  normalLogLikelihood,
} from './fits/normal-fit.js';
export {
  estimateWeibull,
  fitWeibull,
  type WeibullEstimates,
  type WeibullFit,
  weibullLogLikelihood,
} from './fits/weibull-fit.js';
export * from './hypotheses/anderson-darling.js';
export { type BatchTestPower, batchTestPower } from './hypotheses/batch-test-power.js';
export * from './hypotheses/equal-variance.js';
export { type Equivalence, equivalence } from './hypotheses/equivalence.js';
export { type FreemanHalton, freemanHalton } from './hypotheses/freeman-halton.js';
export { type GehanTest, gehanTest, type Within } from './hypotheses/gehan-test.js';
export { type HolmAdjustment, holm } from './hypotheses/holm.js';
export { type KSampleAndersonDarling, kSampleAndersonDarling } from './hypotheses/k-sample-anderson-darling.js';
export * from './hypotheses/kruskal-wallis.js';
export { type MannWhitney, mannWhitney } from './hypotheses/mann-whitney.js';
export { type NonInferiority, nonInferiority } from './hypotheses/non-inferiority.js';
export * from './hypotheses/outlier-screen.js';
export { arrangementsOf, type PermutationTest, permutationTest } from './hypotheses/permutation-test.js';
export * from './hypotheses/shapiro-wilk.js';
export { type SmallestDifference, smallestDifferenceOfMeans } from './hypotheses/smallest-difference.js';
export { type SmallestShiftByRanks, smallestShiftByRanks } from './hypotheses/smallest-shift-by-ranks.js';
export { type SurelyOrderedPairs, surelyOrderedPairs } from './hypotheses/surely-ordered-pairs.js';
export { type WelchTest, welch } from './hypotheses/welch.js';
export { type BrakingHeat, brakingHeat, type Stop } from './physics/braking-heat.js';
export { cumulativeTrapezoid } from './physics/cumulative-trapezoid.js';
export { type Descent, type DescentPower, descentPower } from './physics/descent-power.js';
export { type Drop, drop } from './physics/drop.js';
export { type BrakedDescent, type FieldPrediction, predictField, type RimOnRig } from './physics/field-comparison.js';
export { heatingResponse, type Power, type PowerSegment } from './physics/heating-response.js';
export { type ImpactIntegration, integrateImpact, type StrikeRecord } from './physics/impact-integration.js';
export { type HeatedBody, type LumpedHeating, lumpedHeating } from './physics/lumped-heating.js';
export { fitLumpedHeating, type LumpedHeatingFit } from './physics/lumped-heating-fit.js';
export {
  type ErrorPair,
  type HeatingTrials,
  lumpedHeatingChange,
  lumpedHeatingTrials,
  type RecordError,
} from './physics/lumped-heating-trials.js';
export { STANDARD_GRAVITY } from './physics/standard-gravity.js';
export { type KaplanMeier, kaplanMeier, type SurvivalPoint } from './plotting/kaplan-meier.js';
export {
  type PlottingPoint,
  type PlottingPositions,
  plottingPositions,
  plottingPositionsOf,
} from './plotting/plotting-positions.js';
export { type WeibullRankRegression, weibullRankRegression } from './plotting/weibull-rank-regression.js';
export {
  type ComparedSide,
  calibrateLots,
  chanceOfScore,
  criticalScore,
  type LotsCalibration,
  type LotsCalibrationQuestion,
  scoreOn,
  smallestShift,
} from './prediction/lots/calibration.js';
export type { Cell, ErrorFamily, LotsDesign } from './prediction/lots/draws.js';
export { type LotsPrediction, lotsPrediction } from './prediction/lots/lots-prediction.js';
export {
  futureSpread,
  type LotsSummary,
  lotsSummary,
  offAtScore,
  scatterWeights,
  scoreOf,
} from './prediction/lots/statistic.js';
export { type PredictionBound, predictionBound } from './prediction/prediction-bound.js';
export { type PredictionProbability, predictionProbabilityByRank } from './prediction/prediction-probability.js';
export { logPredictiveDensity } from './prediction/predictive-density.js';
export { type Generator, generatorFrom, seededGenerator } from './random/generator.js';
export type { LevelResult } from './regression/binary-likelihood.js';
export { type ResponseBound, type ResponseBoundQuestion, responseBound } from './regression/response-bound.js';
export { type ResponseCurve, responseCurve } from './regression/response-curve.js';
export { type Staircase, type StaircaseTrial, staircase } from './regression/staircase.js';
export { type DemonstrationGoal, type DemonstrationSize, demonstrationSize } from './sizing/demonstration-size.js';
export { chanceIfUntrue, fewestBad } from './sizing/lot-claim.js';
export {
  type FittedDistribution,
  meanOverLimitFor,
  scatterFor,
  shareBelow,
  weibullShapeFor,
} from './sizing/margin-for-share.js';
export { operatingCharacteristic } from './sizing/operating-characteristic.js';
export { type BoundGoal, type BoundSize, sizeForBound } from './sizing/size-for-bound.js';
export { type CountScheduleChance, type CountStage, countScheduleChance } from './sizing/stages/count-schedule.js';
export { type ScheduleQuestion, type StageConfidence, stageConfidence } from './sizing/stages/stage-confidence.js';
export { type StagedBoundChance, stagedBoundChance } from './sizing/stages/staged-bound-chance.js';
export {
  type WeibullDemonstration,
  type WeibullDemonstrationGoal,
  weibullDemonstrationLoad,
  weibullDemonstrationSize,
} from './sizing/weibull-demonstration-size.js';
export { zeroFailureSize } from './sizing/zero-failure-size.js';
export { coveragePage } from './study/coverage-page.js';
export { type Breach, breaches, coverageExperiments, coverageStudy } from './study/coverage-study.js';
export type { Experiment, Outcome } from './study/experiment.js';
export * from './uncertainty/combine-uncertainty.js';
export { type ConformanceProbability, conformanceProbability } from './uncertainty/conformance-probability.js';
export { coverageOfParts, type ErrorPart } from './uncertainty/coverage-of-parts.js';
export * from './uncertainty/standard-uncertainty.js';
