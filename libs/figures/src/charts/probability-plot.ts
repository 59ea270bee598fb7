import { printSignificant } from '@breakbook/units';
import { scaleLinear, scaleLog } from 'd3-scale';
import { ENGLISH, type FigureLanguage } from '../language.js';
import {
  bottomAxis,
  bottomTitle,
  LABEL_TEXT,
  leftAxis,
  leftAxisWidth,
  NUMBERS_HEIGHT,
  TITLE_HEIGHT,
} from '../marks/axis.js';
import { type KeyItem, key } from '../marks/key.js';
import { tickArrow } from '../marks/tick-arrow.js';
import { wedge } from '../marks/wedge.js';
import { FIGURE_WIDTH, type Mark, type Place, type Scene, type Stroke } from '../scene.js';
import { labelledLimits } from './labelled-limits.js';
import { type AxisQuantity, axisTitle, oneUnit, roundTicks, written, writtenDown } from './numbers.js';
import {
  type FittedDistribution,
  fractionRange,
  onLine,
  PAPERS,
  type PaperDistribution,
  percentTicks,
  valueRange,
} from './probability-scales.js';

export interface ProbabilityPlotInput {
  title: string;
  alt: string;
  caption: string;
  quantity: AxisQuantity;
  /** Broken specimens at their plotting positions; fractions, never percent. */
  failures: readonly { label: string; value: number; fraction: number }[];
  /** Specimens that hold at least their value. */
  atLeast: readonly { label: string; value: number }[];
  /** On whose paper it is drawn; Weibull where left out. */
  distribution?: PaperDistribution;
  fit?: FittedDistribution;
  /** Confidence limits of the value at each fraction, with what they are. */
  band?: { label: string; limits: readonly { fraction: number; lower: number; upper: number }[] };
  /** The lower bound of the value at a fraction, its estimate where that is not the line's, the limit it must clear. */
  bound?: { label: string; value: number; fraction: number; estimate?: number; against?: number };
  limits: readonly PlotLimit[];
  /** English where left out. */
  language?: FigureLanguage;
  /** In points; 170 mm where left out. */
  width?: number;
  /** Without its key, in points. */
  height?: number;
}

export interface PlotLimit {
  label: string;
  value: number;
  external: boolean;
  conforms: 'at or above' | 'at or below';
}

const RIGHT = 8;
const LABELS_TOP = LABEL_TEXT + 3;
const RUG = 14;
const HEIGHT = 232;
const ROOM_FOR_TWO_UNITS = 320;
const WEDGE_WITHOUT_FIT = 24;
const FIT: Stroke = { ink: 'petrol', width: 1.2 };
const BAND: Stroke = { ink: 'petrol', width: 0.5, dash: [3, 2] };

/**
 * Do the broken specimens lie on a straight line, and where does the line meet the share the claim is about?
 *
 *     Weibull:    y = ln(-ln(1 - F)),  x = ln(value):  y = β (x - ln η), which passes 63.2 % at η
 *     normal:     y = Φ⁻¹(F),          x = value:      y = (x - μ) / σ, which passes 50 % at μ
 *     lognormal:  y = Φ⁻¹(F),          x = ln(value):  as normal, of the logarithm
 *
 * On the scales of its paper every distribution of the kind is a straight line. The form of the plot is that of
 * IEC 61649:2008 (from memory).
 */
export function probabilityPlot({ language = ENGLISH, ...given }: ProbabilityPlotInput): Scene {
  const input = { ...given, quantity: { ...given.quantity, language } };
  const { say } = language;
  const width = input.width ?? FIGURE_WIDTH.wide;
  const height = input.height ?? HEIGHT;
  const words = width < ROOM_FOR_TWO_UNITS ? oneUnit(input.quantity) : input.quantity;
  const fractions = fractionRange([
    ...input.failures.map(({ fraction }) => fraction),
    ...(input.bound ? [input.bound.fraction] : []),
  ]);
  const paper = PAPERS[input.distribution ?? 'weibull'];
  const percents = percentTicks(fractions, height - 70, paper, language);
  const left = leftAxisWidth(percents) + 2;
  const right = width - RIGHT;
  const values = valueRange(shownValues(input, fractions[0]), paper);
  const x = (paper.logarithmic ? scaleLog : scaleLinear)(values, [left, right]);
  const strokes = labelledLimits(
    input.limits.map((limit) => ({ ...limit, text: limitText(limit, words) })),
    { scale: x, left, right: width },
  );

  const top = LABELS_TOP + strokes.height + 3;
  const axisY = height - NUMBERS_HEIGHT - TITLE_HEIGHT;
  const keys = key(keyItems(input, words), { left: 0, right: width, y: height });
  const foot = axisY - (input.atLeast.length > 0 ? RUG : 3);
  const line = scaleLinear(fractions.map(paper.height), [foot, top]);
  const ground: Ground = {
    words,
    x,
    y: (fraction) => line(paper.height(fraction)),
    left,
    right,
    top,
    foot,
    axisY,
    fractions,
    values,
  };
  const ticks = roundTicks(values[0], values[1], Math.max(3, Math.round(width / 75)), language);

  const marks: Mark[] = [
    { mark: 'text', text: say('share broken, %'), at: [0, LABEL_TEXT], size: LABEL_TEXT, anchor: 'start', ink: 'ink' },
    ...bandMarks(input, ground),
    ...leftAxis(
      { ...percents, scale: (percent) => ground.y(percent / 100) },
      { x: left, from: axisY, to: top, across: right },
    ),
    ...bottomAxis({ ...ticks, scale: x }, { from: left, to: right, y: axisY }),
    bottomTitle(
      paper.logarithmic
        ? say('{quantity}, logarithmic', { quantity: axisTitle(input.quantity) })
        : axisTitle(input.quantity),
      { to: right, y: axisY + NUMBERS_HEIGHT },
    ),
    ...strokes.marks({ y: LABELS_TOP, top, bottom: axisY }),
    ...fitMarks(input, ground),
    ...input.atLeast.flatMap(({ label, value }) =>
      tickArrow({
        x: x(value),
        y: foot + RUG / 2,
        note: `${label}: ${say('at least {value}', { value: written(value, input.quantity) })}`,
      }),
    ),
    ...failureMarks(input, ground),
    ...boundMarks(input, ground),
    ...keys.marks,
  ];
  return { width, height: height + keys.height, title: input.title, alt: input.alt, caption: input.caption, marks };
}

interface Ground {
  words: AxisQuantity;
  x: (value: number) => number;
  y: (fraction: number) => number;
  left: number;
  right: number;
  top: number;
  foot: number;
  axisY: number;
  fractions: [number, number];
  values: [number, number];
}

/** Every point, limit and bound is shown, and the fitted line down to the lowest share shown. */
function shownValues({ failures, atLeast, limits, bound, fit }: ProbabilityPlotInput, lowest: number): number[] {
  return [
    ...[...failures, ...atLeast, ...limits, ...(bound ? [bound] : [])].map(({ value }) => value),
    ...(bound?.estimate === undefined ? [] : [bound.estimate]),
    ...(fit ? [onLine(fit, Math.max(0.01, lowest))] : []),
  ];
}

function bandMarks({ band }: ProbabilityPlotInput, { x, y, fractions, values }: Ground): Mark[] {
  if (!band) return [];
  const inside = (value: number) => Math.min(Math.max(value, values[0]), values[1]);
  const shown = band.limits.filter(({ fraction }) => fraction >= fractions[0] && fraction <= fractions[1]);
  const edge = (side: 'lower' | 'upper') => shown.map((limits): Place => [x(inside(limits[side])), y(limits.fraction)]);
  return [
    {
      mark: 'area',
      part: 'band',
      note: band.label,
      points: [...edge('lower'), ...edge('upper').reverse()],
      fill: 'wash',
    },
    { mark: 'line', part: 'band edge', points: edge('lower'), stroke: BAND },
    { mark: 'line', part: 'band edge', points: edge('upper'), stroke: BAND },
  ];
}

function fitMarks({ fit }: ProbabilityPlotInput, { x, y, fractions, values }: Ground): Mark[] {
  if (!fit) return [];
  // A straight line between any two of its points, cut where it leaves the picture.
  const [low, high] = fractions.map((fraction): Place => [x(onLine(fit, fraction)), y(fraction)]) as [Place, Place];
  const ends = cut([low, high], [x(values[0]), x(values[1])]);
  return [{ mark: 'line', part: 'fitted line', points: ends, stroke: FIT }];
}

/** The part of a rising line between two uprights. */
function cut([from, to]: [Place, Place], [left, right]: [number, number]): Place[] {
  const at = (x: number): Place => [x, from[1] + ((x - from[0]) * (to[1] - from[1])) / (to[0] - from[0])];
  return [from[0] < left ? at(left) : from, to[0] > right ? at(right) : to];
}

function failureMarks({ failures, quantity }: ProbabilityPlotInput, { x, y }: Ground): Mark[] {
  const radius = failures.length > 100 ? 1.3 : failures.length > 40 ? 1.9 : 2.6;
  return failures.map(({ label, value, fraction }) => ({
    mark: 'dot',
    part: 'failure',
    note: `${label}: ${written(value, quantity)}, plotted at ${printSignificant(fraction * 100, 3)} %`,
    at: [x(value), y(fraction)],
    radius,
    form: 'disc',
    ink: 'ink',
  }));
}

function boundMarks({ bound, fit, quantity }: ProbabilityPlotInput, { x, y, axisY }: Ground): Mark[] {
  if (!bound) return [];
  const [tip, level] = [x(bound.value), y(bound.fraction)];
  const estimate = bound.estimate ?? (fit && onLine(fit, bound.fraction));
  const end = estimate === undefined ? tip + WEDGE_WITHOUT_FIT : x(estimate);
  return [
    {
      mark: 'line',
      part: 'bound dropped to the axis',
      points: [
        [tip, level],
        [tip, axisY],
      ],
      stroke: { ink: 'petrol', width: 0.6, dash: [1.5, 1.5] },
    },
    wedge({ tip, end, y: level, height: 8, note: boundText(bound, quantity) }),
  ];
}

function limitText({ label, value }: PlotLimit, quantity: AxisQuantity): string {
  return `${label}: ${written(value, quantity)}`;
}

function keyItems(
  { failures, atLeast, fit, band, bound, quantity }: ProbabilityPlotInput,
  words: AxisQuantity,
): KeyItem[] {
  const { say } = quantity.language ?? ENGLISH;
  const line = fit && lineText(fit, quantity);
  return [
    { sign: 'disc', text: say('broken ({n})', { n: failures.length }) },
    ...(atLeast.length > 0
      ? [{ sign: 'tick with arrow', text: say('hold at least ({n})', { n: atLeast.length }) } as const]
      : []),
    ...(line ? [{ sign: FIT, text: line }] : []),
    ...(band ? [{ sign: BAND, text: band.label }] : []),
    ...(bound ? [{ sign: 'wedge', text: boundText(bound, words) } as const] : []),
  ];
}

function boundText(
  { label, value, against }: NonNullable<ProbabilityPlotInput['bound']>,
  quantity: AxisQuantity,
): string {
  return `${label}: ${writtenDown(value, quantity, against === undefined ? {} : { limit: against })}`;
}

function lineText(fit: FittedDistribution, quantity: AxisQuantity): string {
  const { say, numeral } = quantity.language ?? ENGLISH;
  const value = (number: number) => written(number, oneUnit(quantity));
  const pure = (number: number) => numeral(printSignificant(number, 3));
  switch (fit.distribution) {
    case 'weibull':
      return say('Weibull line, shape {shape}, scale {scale}', { shape: pure(fit.shape), scale: value(fit.scale) });
    case 'normal':
      return say('normal line, mean {mean}, s {sd}', { mean: value(fit.mean), sd: value(fit.sd) });
    case 'lognormal':
      return say('lognormal line, median {median}, log s {sd}', {
        median: value(fit.median),
        sd: pure(fit.logSd),
      });
  }
}
