import { printSignificant } from '@breakbook/units';
import { scaleLinear } from 'd3-scale';
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
import { seriesStroke } from '../marks/series.js';
import { FIGURE_WIDTH, type Mark, type Place, type Scene } from '../scene.js';

export interface ChanceCurve {
  label: string;
  /** Fractions, never percent, shares rising. */
  points: readonly { share: number; chance: number }[];
}

export interface ChanceCurvesInput {
  title: string;
  alt: string;
  caption: string;
  /** No more than four. */
  curves: readonly ChanceCurve[];
  /** The share that the claim denies, drawn as an upright stroke. */
  edge?: { label: string; share: number };
  /** The largest share shown; where left out, the largest of the curves up to which any of them passes. */
  upTo?: number;
  /** English where left out. */
  language?: FigureLanguage;
  /** In points; 170 mm where left out. */
  width?: number;
  /** Without its key, in points. */
  height?: number;
}

const HEIGHT = 168;
const RIGHT = 8;
const TOP = 2 * LABEL_TEXT + 6;
/** Below it a chance to pass is drawn as none. */
const NONE = 0.005;

/**
 * How likely does a lot pass, by the share of it that lies below the limit? One curve for each way of testing: the form of
 * an operating characteristic as ISO 2859-1 draws it, chance to pass upright, share below the limit level.
 */
export function chanceCurves(input: ChanceCurvesInput): Scene {
  const width = input.width ?? FIGURE_WIDTH.wide;
  const height = input.height ?? HEIGHT;
  const { say, numeral } = input.language ?? ENGLISH;
  const upTo = input.upTo ?? lastSharePassing(input);
  const chances = { ticks: [0, 20, 40, 60, 80, 100], format: (value: number) => String(value) };
  const left = leftAxisWidth(chances) + 2;
  const right = width - RIGHT;
  const axisY = height - NUMBERS_HEIGHT - TITLE_HEIGHT;
  const x = scaleLinear([0, upTo], [left, right]);
  const y = scaleLinear([0, 1], [axisY, TOP]);
  const keys = key(keyItems(input), { left: 0, right: width, y: height });
  const shares = scaleLinear([0, upTo * 100], [left, right]);
  const marks: Mark[] = [
    {
      mark: 'text',
      text: say('chance to pass, %'),
      at: [0, LABEL_TEXT],
      size: LABEL_TEXT,
      anchor: 'start',
      ink: 'ink',
    },
    ...leftAxis({ ...chances, scale: (percent) => y(percent / 100) }, { x: left, from: axisY, to: TOP, across: right }),
    ...bottomAxis(
      {
        scale: shares,
        ticks: shares.ticks(Math.max(3, Math.round(width / 75))),
        format: (value) => numeral(printSignificant(value, value < 1 ? 1 : 2).replace(/\.0$/, '')),
      },
      { from: left, to: right, y: axisY },
    ),
    bottomTitle(say('below the limit, %'), { to: right, y: axisY + NUMBERS_HEIGHT }),
    ...edgeMarks(input, { x, axisY, right, upTo }),
    ...input.curves.map(
      ({ label, points }, index): Mark => ({
        mark: 'line',
        part: 'curve',
        note: label,
        points: within(points, upTo).map(({ share, chance }): Place => [x(share), y(chance)]),
        stroke: seriesStroke(index),
      }),
    ),
    ...keys.marks,
  ];
  return { width, height: height + keys.height, title: input.title, alt: input.alt, caption: input.caption, marks };
}

function lastSharePassing({ curves, edge }: ChanceCurvesInput): number {
  const shares = curves.flatMap(({ points }) => points.filter(({ chance }) => chance > NONE).map(({ share }) => share));
  return Math.max(0.02, (edge?.share ?? 0) * 1.25, ...shares);
}

/** The part of a curve that is shown, ended where the picture ends. */
function within(points: ChanceCurve['points'], upTo: number): ChanceCurve['points'] {
  const over = points.findIndex(({ share }) => share > upTo);
  const [before, after] = [points[over - 1], points[over]];
  if (!before || !after) return points;
  const part = (upTo - before.share) / (after.share - before.share);
  return [...points.slice(0, over), { share: upTo, chance: before.chance + part * (after.chance - before.chance) }];
}

function edgeMarks(
  { edge }: ChanceCurvesInput,
  { x, axisY, right, upTo }: { x: (share: number) => number; axisY: number; right: number; upTo: number },
): Mark[] {
  if (!edge || edge.share > upTo) return [];
  const place = x(edge.share);
  return [
    {
      mark: 'line',
      part: 'edge',
      note: `${edge.label}: ${printSignificant(edge.share * 100, 3)} %`,
      points: [
        [place, axisY],
        [place, TOP],
      ],
      stroke: { ink: 'limit', width: 1.2 },
    },
    {
      mark: 'text',
      text: edge.label,
      at: [right, 2 * LABEL_TEXT + 2],
      size: LABEL_TEXT,
      anchor: 'end',
      ink: 'ink',
    },
  ];
}

function keyItems({ curves }: ChanceCurvesInput): KeyItem[] {
  return curves.map(({ label }, index) => ({ sign: seriesStroke(index), text: label }));
}
