import type { CharacteristicValue } from '@breakbook/lab';
import { decimalsBeside } from '@breakbook/units';
import { extent } from 'd3-array';
import { type ScaleLinear, scaleLinear } from 'd3-scale';
import { ENGLISH, type FigureLanguage } from '../language.js';
import { bottomAxis, bottomTitle, LABEL_TEXT, NUMBERS_HEIGHT, TICK_TEXT, TITLE_HEIGHT } from '../marks/axis.js';
import { diamond } from '../marks/diamond.js';
import { type KeyItem, key } from '../marks/key.js';
import { PREDICTION } from '../marks/prediction-stroke.js';
import { specimenMark } from '../marks/specimen.js';
import { tickArrow } from '../marks/tick-arrow.js';
import { FIGURE_WIDTH, type Mark, type Scene } from '../scene.js';
import { fitted, textWidth } from '../text-width.js';
import { labelledLimits } from './labelled-limits.js';
import { type LaidLane, type Lane, layLanes, sharedLanes, tickHalf } from './lanes.js';
import type { StripLimit } from './margin-strip.js';
import { type AxisQuantity, axisTitle, oneUnit, roundTicks, valueWritten, written } from './numbers.js';

export interface ComparisonInput {
  title: string;
  alt: string;
  caption: string;
  /** One characteristic each, one under the other. */
  axes: readonly ComparedAxis[];
  /** English where left out. */
  language?: FigureLanguage;
  /** In points; 170 mm where left out. */
  width?: number;
}

/** One characteristic: what is known above, what is compared with it below. */
export interface ComparedAxis {
  quantity: AxisQuantity;
  /** A lane for each lot. */
  reference: ComparedBand;
  /** A lane for each item, or for each lot of the second group. */
  items: ComparedBand;
  bounds: readonly PredictionBound[];
  limits: readonly StripLimit[];
}

export interface ComparedBand {
  title: string;
  lanes: readonly ComparedLane[];
}

export type ComparedLane = Lane;

/** What future units of the reference's kind keep within. */
export interface PredictionBound {
  side: 'lower' | 'upper';
  value: number;
  /** With which chance they do, as printed: "98.3 %". */
  level: string;
}

type Language = Required<Pick<ComparisonInput, 'language'>>;

const MOST_LANES = 24;
const HIGHEST = 260;
const BAND_TITLE = 10;
const BETWEEN_BANDS = 3;
const BETWEEN_AXES = 9;
const SIDE = 7;
/** Lane names take no more than this share of the width. */
const NAMES = 0.36;
/** A bound farther from all values than so many times their span is told, not drawn: it would press them together. */
const FARTHEST = 2.5;

/**
 * Does each item lie where units of the reference lie? One axis for each characteristic: reference values as dots in a lane
 * for each lot, items as squares on their corner in a lane each, what is known from one side as an upright stroke with an
 * arrow, prediction bounds as broken strokes and limits as hatched ones, across all lanes.
 */
export function comparison({ language = ENGLISH, ...input }: ComparisonInput): Scene {
  const width = input.width ?? FIGURE_WIDTH.wide;
  const axes = input.axes.map((axis) => withShared(axis, language));
  const names = Math.min(
    width * NAMES,
    Math.max(0, ...axes.flatMap(namesOf).map((name) => textWidth(name, TICK_TEXT))),
  );
  const marks: Mark[] = [];
  let y = 0;
  for (const [index, axis] of axes.entries()) {
    if (index > 0) y += BETWEEN_AXES;
    const drawn = axisMarks(axis, { language, width, left: names + 4, top: y });
    marks.push(...drawn.marks);
    y += drawn.height;
  }
  const keys = key(keyItems(axes, width, language), { left: 0, right: width, y: y + 1 });
  return {
    width,
    height: y + 1 + keys.height,
    title: input.title,
    alt: input.alt,
    caption: input.caption,
    marks: [...marks, ...keys.marks],
  };
}

function withShared(axis: ComparedAxis, language: FigureLanguage): ComparedAxis {
  const shared = ({ title, lanes }: ComparedBand): ComparedBand => ({
    title,
    lanes: sharedLanes(lanes, MOST_LANES, (first, last) => language.say('{first} to {last}', { first, last })),
  });
  return {
    ...axis,
    quantity: { ...axis.quantity, language },
    reference: shared(axis.reference),
    items: shared(axis.items),
  };
}

function namesOf({ reference, items }: ComparedAxis): string[] {
  return [reference, items].flatMap(({ title, lanes }) => [title, ...lanes.map(({ label }) => label)]);
}

function axisMarks(
  axis: ComparedAxis,
  { language, width, left, top }: Language & { width: number; left: number; top: number },
): { marks: Mark[]; height: number } {
  const { quantity, reference, items } = axis;
  const scale = comparisonScale(axis, [left, width]);
  const [low = 0, high = 1] = scale.domain();
  const drawn = axis.bounds.filter(({ value }) => value >= low && value <= high);
  const strokes = labelledLimits(
    [
      ...drawn.map((bound) => ({ text: boundText(bound, axis), value: bound.value, predicted: bound.side })),
      ...axis.limits.map((limit) => ({ ...limit, text: limitText(limit, quantity, width) })),
    ],
    { scale, left: 0, right: width },
  );
  const { radius, lanes } = layLanes([...reference.lanes, ...items.lanes], { scale, highest: HIGHEST });
  const first = lanes.slice(0, reference.lanes.length);
  const second = lanes.slice(reference.lanes.length);
  const heightOf = (band: readonly LaidLane[]) => BAND_TITLE + band.reduce((sum, { height }) => sum + height, 0);
  const lanesTop = top + strokes.height + 4;
  const secondTop = lanesTop + heightOf(first) + BETWEEN_BANDS;
  const axisY = secondTop + heightOf(second) + 2;
  const at = { scale, radius, left, width, quantity };
  return {
    height: axisY + NUMBERS_HEIGHT + TITLE_HEIGHT - top,
    marks: [
      ...guides(first, { ...at, top: lanesTop + BAND_TITLE }),
      ...guides(second, { ...at, top: secondTop + BAND_TITLE }),
      line('between', [0, secondTop - 1], [width, secondTop - 1], 'muted'),
      ...strokes.marks({ y: top, top: lanesTop, bottom: axisY }),
      ...bandMarks(reference.title, first, { ...at, top: lanesTop, form: 'disc' }),
      ...bandMarks(items.title, second, { ...at, top: secondTop, form: 'diamond' }),
      ...bottomAxis(
        { ...roundTicks(low, high, Math.max(3, Math.round((width - left) / 62)), language), scale },
        { from: left, to: width, y: axisY },
      ),
      bottomTitle(fitted(axisTitle(quantity), LABEL_TEXT, width), { to: width, y: axisY + NUMBERS_HEIGHT }),
    ],
  };
}

function boundText({ side, value, level }: PredictionBound, { quantity, items }: ComparedAxis): string {
  const { say } = quantity.language ?? ENGLISH;
  // On its side of every item when printed, as it is when computed.
  const beside = items.lanes.flatMap(({ values }) => values.flatMap(({ value: one }) => numbersOf(one)));
  const decimals = Math.max(quantity.decimals, Math.min(decimalsBeside(value, undefined, beside), 6));
  const printed = written(value, { ...oneUnit(quantity), decimals });
  return say(side === 'lower' ? 'lower bound, {level}: {value}' : 'upper bound, {level}: {value}', {
    level,
    value: printed,
  });
}

function limitText({ label, value }: StripLimit, quantity: AxisQuantity, width: number): string {
  const number = written(value, oneUnit(quantity));
  return `${fitted(label, LABEL_TEXT, width - textWidth(`: ${number}`, LABEL_TEXT) - 24)}: ${number}`;
}

/** Every value and limit has a place on the scale, and every bound that is not far away from all of them. */
export function comparisonScale(axis: ComparedAxis, [left, right]: [number, number]): ScaleLinear<number, number> {
  const values = [axis.reference, axis.items].flatMap(({ lanes }) =>
    lanes.flatMap((lane) => lane.values.flatMap(({ value }) => numbersOf(value))),
  );
  const known = [...values, ...axis.limits.map(({ value }) => value)];
  const [least = 0, most = 1] = extent(known.length === 0 ? axis.bounds.map(({ value }) => value) : known);
  const away = (most - least || Math.abs(most) * 0.1 || 1) * FARTHEST;
  const near = axis.bounds.flatMap(({ value }) => (value >= least - away && value <= most + away ? [value] : []));
  const [low, high] = [Math.min(least, ...near), Math.max(most, ...near)];
  const span = high - low || Math.abs(high) * 0.1 || 1;
  return scaleLinear([low - span * 0.06, high + span * 0.06], [left + SIDE, right - SIDE]);
}

function numbersOf(value: CharacteristicValue): number[] {
  return value.kind === 'between' ? [value.lower, value.upper] : [value.value];
}

interface BandPlace {
  scale: (value: number) => number;
  radius: number;
  left: number;
  width: number;
  quantity: AxisQuantity;
  top: number;
}

/** A faint line in each lane leads from its name to its marks. */
function guides(lanes: readonly LaidLane[], { left, width, top, radius }: BandPlace): Mark[] {
  return placed(lanes, top).map(({ foot }) => line('lane', [left, foot - radius], [width, foot - radius], 'faint'));
}

function placed(lanes: readonly LaidLane[], top: number): { lane: LaidLane; foot: number }[] {
  let y = top;
  return lanes.map((lane) => {
    y += lane.height;
    return { lane, foot: y - 2 };
  });
}

function bandMarks(
  title: string,
  lanes: readonly LaidLane[],
  { scale, radius, left, quantity, top, form }: BandPlace & { form: 'disc' | 'diamond' },
): Mark[] {
  const name = (text: string, y: number, strong: boolean): Mark => ({
    mark: 'text',
    part: strong ? 'band' : 'lane name',
    text: fitted(text, TICK_TEXT, left - 4),
    at: [0, y],
    size: TICK_TEXT,
    anchor: 'start',
    ink: strong ? 'muted' : 'ink',
  });
  return [
    name(title, top + TICK_TEXT + 0.5, true),
    ...placed(lanes, top + BAND_TITLE).flatMap(({ lane, foot }) => [
      name(lane.label, foot - radius + TICK_TEXT * 0.36, false),
      ...lane.values.flatMap(({ label, value }, index) =>
        valueMarks(value, {
          scale,
          radius,
          y: foot - radius - (lane.levels[index] ?? 0) * lane.step,
          form,
          note: `${label}: ${valueWritten(value, quantity)}`,
        }),
      ),
    ]),
  ];
}

function valueMarks(
  value: CharacteristicValue,
  at: { scale: (value: number) => number; radius: number; y: number; form: 'disc' | 'diamond'; note: string },
): Mark[] {
  const { scale, radius, y, form, note } = at;
  const part = form === 'disc' ? 'reference' : 'item';
  const ink = form === 'disc' ? 'ink' : 'petrol';
  if (value.kind === 'between') return specimenMark({ value, scale, y, radius, ink, part, note });
  const x = scale(value.value);
  if (value.kind === 'exact')
    return [
      form === 'disc'
        ? { mark: 'dot', part, note, at: [x, y], radius, form: 'disc', ink }
        : diamond([x, y], radius * 1.15, { part, note }),
    ];
  return tickArrow({
    x,
    y,
    side: value.kind === 'atLeast' ? 'at least' : 'at most',
    half: tickHalf(radius),
    ink,
    width: form === 'disc' ? 0.9 : 1.5,
    part,
    note,
  });
}

function line(part: string, from: [number, number], to: [number, number], ink: 'faint' | 'muted'): Mark {
  return { mark: 'line', part, points: [from, to], stroke: { ink, width: 0.5 } };
}

/** Only the signs that these axes show; a bound that is too far away to draw is told here. */
function keyItems(axes: readonly ComparedAxis[], width: number, { say }: FigureLanguage): KeyItem[] {
  const titled = (band: 'reference' | 'items', sign: 'disc' | 'diamond'): KeyItem[] =>
    [...new Set(axes.map((axis) => axis[band].title))].map((title) => {
      const own = axes.filter((axis) => axis[band].title === title);
      const counts = own.map((axis) => axis[band].lanes.reduce((sum, { values }) => sum + values.length, 0));
      const [one = 0] = counts;
      return { sign, text: counts.every((count) => count === one) ? say('{title} ({n})', { title, n: one }) : title };
    });
  const values = axes.flatMap(({ reference, items }) =>
    [reference, items].flatMap(({ lanes }) => lanes.flatMap((lane) => lane.values.map(({ value }) => value.kind))),
  );
  const far = axes.flatMap((axis) => {
    const [low = 0, high = 1] = comparisonScale(axis, [0, width]).domain();
    return axis.bounds
      .filter(({ value }) => value < low || value > high)
      .map((bound) => say('{bound}, outside the picture', { bound: boundText(bound, axis) }));
  });
  const drawn = axes.reduce((sum, { bounds }) => sum + bounds.length, 0) - far.length;
  return [
    ...titled('reference', 'disc'),
    ...titled('items', 'diamond'),
    ...(values.includes('atLeast') ? [{ sign: 'tick with arrow', text: say('at least') } as const] : []),
    ...(values.includes('atMost') ? [{ sign: 'arrow with tick', text: say('at most') } as const] : []),
    ...(values.includes('between') ? [{ sign: 'bar', text: say('between') } as const] : []),
    ...(drawn > 0 ? [{ sign: PREDICTION, text: say('future units keep within') }] : []),
    ...far.map((text) => ({ sign: PREDICTION, text })),
  ];
}
