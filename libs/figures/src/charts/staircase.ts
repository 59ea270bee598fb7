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
import { key } from '../marks/key.js';
import { FIGURE_WIDTH, type Mark, type Place, type Scene, type Stroke } from '../scene.js';
import { type AxisQuantity, axisTitle, oneUnit, roundTicks, written } from './numbers.js';

export interface StaircaseInput {
  title: string;
  alt: string;
  caption: string;
  quantity: AxisQuantity;
  /** In the order in which they were struck. */
  strikes: readonly { label: string; level: number; broke: boolean }[];
  /** The level at which half of them break, where it can be told. */
  estimate?: number;
  /** English where left out. */
  language?: FigureLanguage;
  /** In points; 170 mm where left out. */
  width?: number;
  /** Without its key, in points. */
  height?: number;
}

const HEIGHT = 150;
const RIGHT = 8;
const TOP = LABEL_TEXT + 9;
const PATH: Stroke = { ink: 'muted', width: 0.6 };
const ESTIMATE: Stroke = { ink: 'petrol', width: 1.2, dash: [4, 2] };

/**
 * At which levels were specimens struck, one after the other, and which of them broke? A filled dot broke, a ring held; the next
 * level lies one step lower after a break and one step higher after none (Dixon and Mood 1948, JASA 43, 109-126).
 */
export function staircase({ language = ENGLISH, ...given }: StaircaseInput): Scene {
  const input = { ...given, quantity: { ...given.quantity, language } };
  const { strikes, estimate, quantity } = input;
  const { say, numeral } = language;
  const width = input.width ?? FIGURE_WIDTH.wide;
  const height = input.height ?? HEIGHT;
  const levels = [...strikes.map(({ level }) => level), ...(estimate === undefined ? [] : [estimate])];
  const [low, high] = levels.length === 0 ? [0, 1] : [Math.min(...levels), Math.max(...levels)];
  const room = (high - low) * 0.15 || Math.abs(high) * 0.05 || 1;
  const axisY = height - NUMBERS_HEIGHT - TITLE_HEIGHT;
  const y = scaleLinear([low - room, high + room], [axisY, TOP]);
  const ticks = roundTicks(low - room, high + room, 5, language);
  const left = leftAxisWidth(ticks) + 2;
  const right = width - RIGHT;
  const x = scaleLinear([0.5, Math.max(strikes.length, 1) + 0.5], [left, right]);
  const radius = strikes.length > 60 ? 1.6 : strikes.length > 30 ? 2.2 : 3;
  const places = strikes.map(({ level }, index): Place => [x(index + 1), y(level)]);
  const broken = strikes.filter(({ broke }) => broke).length;
  const keys = key(
    [
      { sign: 'disc', text: say('broke ({n})', { n: broken }) },
      { sign: 'ring', text: say('held ({n})', { n: strikes.length - broken }) },
      ...(estimate === undefined
        ? []
        : [{ sign: ESTIMATE, text: say('half break at {value}', { value: written(estimate, oneUnit(quantity)) }) }]),
    ],
    { left: 0, right: width, y: height },
  );
  const marks: Mark[] = [
    { mark: 'text', text: axisTitle(quantity), at: [0, LABEL_TEXT], size: LABEL_TEXT, anchor: 'start', ink: 'ink' },
    ...leftAxis({ ...ticks, scale: y }, { x: left, from: axisY, to: TOP, across: right }),
    ...bottomAxis(
      {
        scale: x,
        ticks: wholeTicks(strikes.length, Math.max(3, Math.round(width / 40))),
        format: (value) => numeral(String(value)),
      },
      { from: left, to: right, y: axisY },
    ),
    bottomTitle(say('order of the strikes'), { to: right, y: axisY + NUMBERS_HEIGHT }),
    ...(estimate === undefined ? [] : [level('estimate', y(estimate), [left, right], ESTIMATE)]),
    ...(places.length > 1 ? [{ mark: 'line', part: 'path', points: places, stroke: PATH } as const] : []),
    ...strikes.flatMap(({ label, level: at, broke }, index): Mark[] => [
      {
        mark: 'dot',
        part: broke ? 'broke' : 'held',
        note: `${label}: ${written(at, quantity)}, ${say(broke ? 'broke' : 'held')}`,
        at: places[index] ?? [0, 0],
        radius,
        form: broke ? 'disc' : 'ring',
        ink: 'ink',
      },
    ]),
    ...keys.marks,
  ];
  return { width, height: height + keys.height, title: input.title, alt: input.alt, caption: input.caption, marks };
}

function level(part: string, y: number, [left, right]: [number, number], stroke: Stroke): Mark {
  return {
    mark: 'line',
    part,
    points: [
      [left, y],
      [right, y],
    ],
    stroke,
  };
}

/** Whole numbers from 1 up, no more than so many. */
function wholeTicks(count: number, most: number): number[] {
  const step = [1, 2, 5, 10, 20, 50, 100, 200, 500, 1000].find((one) => count / one <= most) ?? 1000;
  return Array.from({ length: Math.max(1, Math.floor(count / step)) }, (_, index) => (index + 1) * step);
}
