/** Charts as data, and the papers they are drawn on. */
export { type ChanceCurve, type ChanceCurvesInput, chanceCurves } from './charts/chance-curves.js';
export {
  type ComparedAxis,
  type ComparedBand,
  type ComparedLane,
  type ComparisonInput,
  comparison,
  type PredictionBound,
} from './charts/comparison.js';
export { type LotHistoryInput, type LotInHistory, lotHistory } from './charts/lot-history.js';
export {
  type MarginStripInput,
  marginStrip,
  type StripBound,
  type StripLimit,
  type StripSpecimen,
} from './charts/margin-strip.js';
export { type AxisQuantity, axisTitle, valueWritten, written } from './charts/numbers.js';
export { type PlotLimit, type ProbabilityPlotInput, probabilityPlot } from './charts/probability-plot.js';
export { type FittedDistribution, fitInto, type PaperDistribution } from './charts/probability-scales.js';
export { type StaircaseInput, staircase } from './charts/staircase.js';
export { type TraceChannel, type TraceMark, type TracePlotInput, tracePlot, traceTimeAt } from './charts/trace-plot.js';

export type { FigureForm, FigureLanguage } from './language.js';
export { type Outcome, outcomeInk, outcomeSign } from './marks/outcome-sign.js';
export { PALETTES, type Palette } from './palette.js';
export { type DrawCommand, markToCommand, type PathCommand, sceneToPaths, type TextCommand } from './papers/paths.js';
export { type SvgOptions, sceneToSvg } from './papers/svg.js';
export { FIGURE_WIDTH, type Ink, type Mark, type Place, type Scene, type Stroke } from './scene.js';
export { textWidth } from './text-width.js';
