import type { CharacteristicValue } from '@breakbook/lab';
import { scaleLinear } from 'd3-scale';
import { ENGLISH, type FigureLanguage } from '../language.js';
import { LABEL_TEXT, leftAxis, leftAxisWidth, TICK_TEXT } from '../marks/axis.js';
import { type KeyItem, key } from '../marks/key.js';
import { FIGURE_WIDTH, type Mark, type Scene, type Stroke } from '../scene.js';
import { textWidth } from '../text-width.js';
import { type AxisQuantity, axisTitle, oneUnit, roundTicks, valueWritten, written, writtenDown } from './numbers.js';

export interface LotHistoryInput {
  title: string;
  alt: string;
  caption: string;
  quantity: AxisQuantity;
  /** In the order in which they were made. */
  lots: readonly LotInHistory[];
  /** No more than four. */
  limits: readonly { label: string; value: number; external: boolean }[];
  /** English where left out. */
  language?: FigureLanguage;
  /** In points; 170 mm where left out. */
  width?: number;
  /** Without its key, in points. */
  height?: number;
}

export interface LotInHistory {
  lot: string;
  results: readonly { label: string; value: CharacteristicValue }[];
  /** The lower bound, and the estimate it was drawn back from. */
  bound?: { value: number; estimate: number };
}

const HEIGHT = 210;
const RIGHT = 8;
const TOP = LABEL_TEXT + 9;
const FOOT = TICK_TEXT + 12;
const EXTERNAL: Stroke = { ink: 'limit', width: 1.8 };
const INTERNAL: Stroke = { ink: 'limit', width: 1 };
const DASHES = [undefined, [5, 2.5], [1.5, 2], [7, 2, 1.5, 2]] as const;

/**
 * How did lots do, one after the other? Each has its results as dots one over the other and its lower bound as a wedge whose tip
 * is the bound; limits lie across all of them. What is known from one side has a tick up or down.
 */
export function lotHistory({ language = ENGLISH, ...given }: LotHistoryInput): Scene {
  const input = { ...given, quantity: { ...given.quantity, language } };
  const { lots, limits, quantity } = input;
  const width = input.width ?? FIGURE_WIDTH.wide;
  const height = input.height ?? HEIGHT;
  const values = [
    ...lots.flatMap(({ results, bound }) => [
      ...results.flatMap(({ value }) => (value.kind === 'between' ? [value.lower, value.upper] : [value.value])),
      ...(bound ? [bound.value, bound.estimate] : []),
    ]),
    ...limits.map(({ value }) => value),
  ];
  const [low, high] = values.length === 0 ? [0, 1] : [Math.min(...values), Math.max(...values)];
  const room = (high - low) * 0.08 || Math.abs(high) * 0.05 || 1;
  const axisY = height - FOOT;
  const y = scaleLinear([low - room, high + room], [axisY, TOP]);
  const ticks = roundTicks(low - room, high + room, 6, language);
  const left = leftAxisWidth(ticks) + 2;
  const right = width - RIGHT;
  const each = (right - left) / Math.max(1, lots.length);
  const middle = (index: number) => left + (index + 0.5) * each;
  const strokes = limits.map(({ external }, index): Stroke => {
    const dash = DASHES[index];
    if (index >= DASHES.length) throw new Error(`A history of lots shows at most ${DASHES.length} limits.`);
    return { ...(external ? EXTERNAL : INTERNAL), ...(dash ? { dash } : {}) };
  });
  const keys = key(keyItems(input, strokes), { left: 0, right: width, y: height });
  const marks: Mark[] = [
    { mark: 'text', text: axisTitle(quantity), at: [0, LABEL_TEXT], size: LABEL_TEXT, anchor: 'start', ink: 'ink' },
    ...leftAxis({ ...ticks, scale: y }, { x: left, from: axisY, to: TOP, across: right }),
    {
      mark: 'line',
      part: 'axis',
      points: [
        [left, axisY],
        [right, axisY],
      ],
      stroke: { ink: 'ink', width: 0.8 },
    },
    ...limits.map(
      ({ label, value }, index): Mark => ({
        mark: 'line',
        part: 'limit',
        note: `${label}: ${written(value, quantity)}`,
        points: [
          [left, y(value)],
          [right, y(value)],
        ],
        stroke: strokes[index] ?? INTERNAL,
      }),
    ),
    ...lots.flatMap((lot, index) => lotMarks(lot, { x: middle(index), y, each, quantity })),
    ...lotNames(lots, { middle, each, axisY }),
    ...keys.marks,
  ];
  return { width, height: height + keys.height, title: input.title, alt: input.alt, caption: input.caption, marks };
}

function lotMarks(
  { results, bound, lot }: LotInHistory,
  at: { x: number; y: (value: number) => number; each: number; quantity: AxisQuantity },
): Mark[] {
  const { x, y, quantity } = at;
  const radius = Math.max(1, Math.min(2.4, at.each * 0.12));
  const dots = results.flatMap(({ label, value }): Mark[] => {
    const note = `${label}: ${valueWritten(value, quantity)}`;
    const line = (from: number, to: number): Mark => ({
      mark: 'line',
      part: value.kind,
      note,
      points: [
        [x, from],
        [x, to],
      ],
      stroke: { ink: 'ink', width: 0.8 },
    });
    if (value.kind === 'between') return [line(y(value.lower), y(value.upper))];
    const place = y(value.value);
    const away = value.kind === 'atLeast' ? -1 : 1;
    return [
      ...(value.kind === 'exact' ? [] : [line(place, place + away * (radius + 5))]),
      {
        mark: 'dot',
        part: 'result',
        note,
        at: [x, place],
        radius,
        form: value.kind === 'exact' ? 'disc' : 'ring',
        ink: 'ink',
      },
    ];
  });
  if (!bound) return dots;
  const half = Math.min(4, at.each * 0.18);
  const aside = x + Math.min(9, at.each * 0.3);
  const wedge: Mark = {
    mark: 'area',
    part: 'bound',
    note: (quantity.language ?? ENGLISH).say('{lot}, lower bound: {value}', {
      lot,
      value: writtenDown(bound.value, quantity),
    }),
    points: [
      [aside, y(bound.value)],
      [aside - half, y(bound.estimate)],
      [aside + half, y(bound.estimate)],
    ],
    fill: 'petrol',
  };
  return [...dots, wedge];
}

/** Names under the axis: as many as have room, the last one always. */
function lotNames(
  lots: readonly LotInHistory[],
  { middle, each, axisY }: { middle: (index: number) => number; each: number; axisY: number },
): Mark[] {
  const widest = Math.max(1, ...lots.map(({ lot }) => textWidth(lot, TICK_TEXT)));
  const step = Math.max(1, Math.ceil((widest + 6) / each));
  return lots.flatMap(({ lot }, index): Mark[] =>
    (lots.length - 1 - index) % step === 0 && middle(index) - textWidth(lot, TICK_TEXT) / 2 >= 0
      ? [
          {
            mark: 'text',
            part: 'lot',
            text: lot,
            at: [middle(index), axisY + TICK_TEXT + 4],
            size: TICK_TEXT,
            anchor: textWidth(lot, TICK_TEXT) > each && index === lots.length - 1 ? 'end' : 'middle',
            ink: 'ink',
          },
        ]
      : [],
  );
}

function keyItems({ lots, limits, quantity }: LotHistoryInput, strokes: readonly Stroke[]): KeyItem[] {
  const { say } = quantity.language ?? ENGLISH;
  const count = lots.reduce((sum, { results }) => sum + results.length, 0);
  const oneSided = lots.some(({ results }) => results.some(({ value }) => value.kind !== 'exact'));
  return [
    { sign: 'disc', text: say('result ({n})', { n: count }) },
    ...(oneSided ? [{ sign: 'ring', text: say('known from one side') } as const] : []),
    ...(lots.some(({ bound }) => bound)
      ? [{ sign: 'wedge', text: say('lower bound at its tip, estimate at its end') } as const]
      : []),
    ...limits.map(
      ({ label, value }, index): KeyItem => ({
        sign: strokes[index] ?? INTERNAL,
        text: `${label}: ${written(value, oneUnit(quantity))}`,
      }),
    ),
  ];
}
