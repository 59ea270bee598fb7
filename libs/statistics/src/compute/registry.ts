import type { Method } from './method.js';
import { acceptanceRisksMethod } from './methods/acceptance-risks.js';
import { andersonDarlingMethod } from './methods/anderson-darling.js';
import { anovaBoundMethod } from './methods/anova-bound.js';
import { basisValueMethod } from './methods/basis-value.js';
import { binomialBoundMethod } from './methods/binomial-bound.js';
import { brakingHeatMethod } from './methods/braking-heat.js';
import { chartConstantsMethod } from './methods/chart-constants.js';
import { combineUncertaintyMethod } from './methods/combine-uncertainty.js';
import { competingModesMethod } from './methods/competing-modes.js';
import { conformanceProbabilityMethod } from './methods/conformance-probability.js';
import { convertMethod } from './methods/convert.js';
import { cusumChartMethod } from './methods/cusum-chart.js';
import { demonstrationSizeMethod } from './methods/demonstration-size.js';
import { dropMethod } from './methods/drop.js';
import { equalVarianceMethod } from './methods/equal-variance.js';
import { equivalenceMethod } from './methods/equivalence.js';
import { ewmaChartMethod } from './methods/ewma-chart.js';
import { fieldComparisonMethod } from './methods/field-comparison.js';
import { freemanHaltonMethod } from './methods/freeman-halton.js';
import { gehanTestMethod } from './methods/gehan-test.js';
import { guardBandMethod } from './methods/guard-band.js';
import { hansonKoopmansMethod } from './methods/hanson-koopmans.js';
import { holmMethod } from './methods/holm.js';
import { impactIntegrationMethod } from './methods/impact-integration.js';
import { individualsChartMethod } from './methods/individuals-chart.js';
import { kSampleAndersonDarlingMethod } from './methods/k-sample-anderson-darling.js';
import { kaplanMeierMethod } from './methods/kaplan-meier.js';
import { kruskalWallisMethod } from './methods/kruskal-wallis.js';
import { lognormalFitMethod } from './methods/lognormal-fit.js';
import { lotsPredictionMethod } from './methods/lots-prediction.js';
import { lowerToleranceBoundMethod } from './methods/lower-tolerance-bound.js';
import { lumpedHeatingMethod } from './methods/lumped-heating.js';
import { mannWhitneyMethod } from './methods/mann-whitney.js';
import { nonInferiorityMethod } from './methods/non-inferiority.js';
import { normalFitMethod } from './methods/normal-fit.js';
import { normalToleranceFactorMethod } from './methods/normal-tolerance-factor.js';
import { oneWayAnovaMethod } from './methods/one-way-anova.js';
import { operatingCharacteristicMethod } from './methods/operating-characteristic.js';
import { orderStatisticBoundMethod } from './methods/order-statistic-bound.js';
import { outlierScreenMethod } from './methods/outlier-screen.js';
import { permutationTestMethod } from './methods/permutation-test.js';
import { plottingPositionsMethod } from './methods/plotting-positions.js';
import { predictionBoundMethod } from './methods/prediction-bound.js';
import { predictionProbabilityMethod } from './methods/prediction-probability.js';
import { responseCurveMethod } from './methods/response-curve.js';
import { runLengthMethod } from './methods/run-length.js';
import { sampleSizeMethod } from './methods/sample-size.js';
import { shapiroWilkMethod } from './methods/shapiro-wilk.js';
import { stageConfidenceMethod } from './methods/stage-confidence.js';
import { staircaseMethod } from './methods/staircase.js';
import { standardUncertaintyMethod } from './methods/standard-uncertainty.js';
import { summaryMethod } from './methods/summary.js';
import { varianceRatioMethod } from './methods/variance-ratio.js';
import { weibullComparisonMethod } from './methods/weibull-comparison.js';
import { weibullDemonstrationSizeMethod } from './methods/weibull-demonstration-size.js';
import { weibullFitMethod } from './methods/weibull-fit.js';
import { weibullKnownShapeBoundMethod } from './methods/weibull-known-shape-bound.js';
import { weibullRankRegressionMethod } from './methods/weibull-rank-regression.js';
import { weibullToleranceFactorMethod } from './methods/weibull-tolerance-factor.js';
import { welchMethod } from './methods/welch.js';
import { zeroFailureSizeMethod } from './methods/zero-failure-size.js';

/** Every calculation that can be asked for by name. A new one is its file and a line here. */
export const computeMethods: readonly Method[] = [
  summaryMethod,
  weibullFitMethod,
  normalFitMethod,
  lognormalFitMethod,
  normalToleranceFactorMethod,
  weibullToleranceFactorMethod,
  lowerToleranceBoundMethod,
  orderStatisticBoundMethod,
  hansonKoopmansMethod,
  anovaBoundMethod,
  basisValueMethod,
  weibullKnownShapeBoundMethod,
  zeroFailureSizeMethod,
  demonstrationSizeMethod,
  stageConfidenceMethod,
  binomialBoundMethod,
  plottingPositionsMethod,
  weibullRankRegressionMethod,
  kaplanMeierMethod,
  competingModesMethod,
  impactIntegrationMethod,
  dropMethod,
  lumpedHeatingMethod,
  brakingHeatMethod,
  fieldComparisonMethod,
  convertMethod,
  oneWayAnovaMethod,
  andersonDarlingMethod,
  kSampleAndersonDarlingMethod,
  equalVarianceMethod,
  outlierScreenMethod,
  shapiroWilkMethod,
  kruskalWallisMethod,
  welchMethod,
  varianceRatioMethod,
  mannWhitneyMethod,
  permutationTestMethod,
  gehanTestMethod,
  freemanHaltonMethod,
  equivalenceMethod,
  nonInferiorityMethod,
  holmMethod,
  weibullComparisonMethod,
  predictionBoundMethod,
  predictionProbabilityMethod,
  lotsPredictionMethod,
  conformanceProbabilityMethod,
  guardBandMethod,
  acceptanceRisksMethod,
  standardUncertaintyMethod,
  combineUncertaintyMethod,
  chartConstantsMethod,
  individualsChartMethod,
  ewmaChartMethod,
  cusumChartMethod,
  runLengthMethod,
  staircaseMethod,
  responseCurveMethod,
  operatingCharacteristicMethod,
  sampleSizeMethod,
  weibullDemonstrationSizeMethod,
];
