import { unitSymbol } from '@breakbook/units';
import { groups, max, min } from 'd3-array';
import { type ScaleLinear, scaleLinear } from 'd3-scale';
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
import { FIGURE_WIDTH, type Mark, type Place, type Scene, type Stroke } from '../scene.js';
import { textWidth } from '../text-width.js';
import { type LabelPlace, labelRows } from './label-rows.js';
import { axisTitle, roundTicks } from './numbers.js';

export interface TracePlotInput {
  title: string;
  alt: string;
  caption: string;
  /** Channels of one unit share a panel; panels share the time axis. */
  channels: readonly TraceChannel[];
  events: readonly TraceMark[];
  /** English where left out. */
  language?: FigureLanguage;
  /** In points; 170 mm where left out. */
  width?: number;
  /** Height of one panel, in points. */
  panelHeight?: number;
}

export interface TraceChannel {
  channel: string;
  title: string;
  unit: string;
  reference?: 'gauge' | 'absolute';
  /** Samples to join by a line, times in seconds. A long record comes thinned to the extremes of each short stretch. */
  samples: { time: ArrayLike<number>; values: ArrayLike<number> };
}

export interface TraceMark {
  name: string;
  /** Seconds. */
  time: number;
  value: number;
  channel: string;
}

const ROW = 10.5;
const PANEL = 118;
/** Height of each panel after the first, as a share of it. */
const LATER_PANEL = 0.5;
const BETWEEN_PANELS = 25;
const RIGHT = 8;
const EVENT_RADIUS = 2.6;
const EVENT_LABELS_TOP = LABEL_TEXT + 6;

/** What did the record look like, and where are the moments the result was read from? */
export function tracePlot(input: TracePlotInput): Scene {
  requirePairs(input.channels);
  const { width, axes, left, right, time } = frameOf(input);
  const language = input.language ?? ENGLISH;
  const labels = labelRows(
    input.events.map((event) => ({ x: time(event.time), width: textWidth(event.name, LABEL_TEXT) })),
    { left, right: width, gap: 5, beside: 3 },
  );

  const firstTop = EVENT_LABELS_TOP + Math.max(0, ...labels.map(({ row }) => row + 1)) * ROW + 4;
  const panelHeight = input.panelHeight ?? PANEL;
  const panels = axes.map((axis, index): Panel => {
    const height = index === 0 ? panelHeight : panelHeight * LATER_PANEL;
    const above = index === 0 ? 0 : panelHeight + (index - 1) * panelHeight * LATER_PANEL + index * BETWEEN_PANELS;
    const top = firstTop + above;
    return { ...axis, top, foot: top + height, scale: axis.scale.range([top + height, top]) };
  });
  const foot = panels.at(-1)?.foot ?? firstTop;
  const [first = 0, last = 1] = time.domain();
  const ticks = roundTicks(first, last, Math.max(3, Math.round(width / 60)), language);

  const marks: Mark[] = [
    ...panels.flatMap((panel, index) =>
      panelMarks(panel, time, { left, right, titleY: index === 0 ? LABEL_TEXT : panel.top - 8, language }),
    ),
    ...input.events.flatMap((event, index) => eventMarks(event, labels[index], panels, time)),
    ...bottomAxis({ ...ticks, scale: time }, { from: left, to: right, y: foot }),
    bottomTitle(language.say('time, {unit}', { unit: unitSymbol('s') }), { to: right, y: foot + NUMBERS_HEIGHT }),
  ];
  const end = foot + NUMBERS_HEIGHT + TITLE_HEIGHT;
  const keys = key(panels.flatMap(keyItems), { left: 0, right: width, y: end });
  const { title, alt, caption } = input;
  return { width, height: end + keys.height, title, alt, caption, marks: [...marks, ...keys.marks] };
}

/** Which moment of the record lies under a place of the figure, in seconds; at its edges the first and the last. */
export function traceTimeAt(input: TracePlotInput, x: number): number {
  const { left, right, time } = frameOf(input);
  return time.invert(Math.min(right, Math.max(left, x)));
}

function frameOf(input: TracePlotInput) {
  const width = input.width ?? FIGURE_WIDTH.wide;
  const axes = panelsOf(input.channels).map((channels) => ({ channels, ...valueAxis(channels, input.language) }));
  const left = Math.max(0, ...axes.map(leftAxisWidth)) + 2;
  const right = width - RIGHT;
  return { width, axes, left, right, time: timeScale(input.channels, { from: left, to: right }) };
}

function requirePairs(channels: readonly TraceChannel[]): void {
  for (const { channel, samples } of channels)
    if (samples.time.length !== samples.values.length)
      throw new Error(
        `Channel ${channel} has ${samples.time.length} times and ${samples.values.length} values. Give one value for each time.`,
      );
}

/** Seconds to points. */
export function timeScale(
  channels: readonly TraceChannel[],
  { from, to }: { from: number; to: number },
): ScaleLinear<number, number> {
  const first = min(channels, ({ samples }) => samples.time[0]) ?? 0;
  const last = max(channels, ({ samples }) => samples.time[samples.time.length - 1]) ?? 1;
  return scaleLinear([first, last > first ? last : first + 1], [from, to]);
}

interface Panel {
  channels: readonly TraceChannel[];
  scale: ScaleLinear<number, number>;
  ticks: number[];
  format: (value: number) => string;
  top: number;
  foot: number;
}

function panelsOf(channels: readonly TraceChannel[]): TraceChannel[][] {
  return groups(channels, ({ unit, reference = '' }) => `${unit} ${reference}`).map(([, panel]) => panel);
}

function valueAxis(channels: readonly TraceChannel[], language: FigureLanguage | undefined) {
  const low = Math.min(0, min(channels, ({ samples }) => min(Array.from(samples.values))) ?? 0);
  const high = max(channels, ({ samples }) => max(Array.from(samples.values))) ?? 0;
  const [, top = high] = scaleLinear([0, high > 0 ? high : low + 1], [0, 1])
    .nice(5)
    .domain();
  // The noise of a zero needs a little room below it, not a whole step of the scale.
  return { scale: scaleLinear([low, top], [0, 1]), ...roundTicks(low, top, 4, language) };
}

function panelMarks(
  { channels, scale, ticks, format, top, foot }: Panel,
  time: (value: number) => number,
  { left, right, titleY, language }: { left: number; right: number; titleY: number; language: FigureLanguage },
): Mark[] {
  const [first] = channels;
  if (!first) return [];
  const title = axisTitle({ ...first, language, title: channels.length === 1 ? first.title : '' }).replace(/^, /, '');
  return [
    ...leftAxis({ scale, ticks, format }, { x: left, from: foot, to: top, across: right }),
    { mark: 'text', text: title, at: [0, titleY], size: LABEL_TEXT, anchor: 'start', ink: 'ink' },
    // The first series is the one that is judged; where two lie on one another it is on top.
    ...channels.map((channel, series) => channelMark(channel, seriesStroke(series), time, scale)).reverse(),
  ];
}

/** A panel of one channel is named by its axis. */
function keyItems({ channels }: Panel): KeyItem[] {
  return channels.length === 1
    ? []
    : channels.map(({ title }, series) => ({ sign: seriesStroke(series), text: title }));
}

function channelMark(
  { samples, title }: TraceChannel,
  stroke: Stroke,
  time: (value: number) => number,
  scale: (value: number) => number,
): Mark {
  const points = Array.from(samples.time, (t, index): Place => [time(t), scale(samples.values[index] ?? 0)]);
  return { mark: 'line', part: 'channel', note: title, points, stroke };
}

/** The moment on its curve, and a leader up to its name. */
function eventMarks(
  event: TraceMark,
  label: LabelPlace | undefined,
  panels: readonly Panel[],
  time: (value: number) => number,
): Mark[] {
  const panel = panels.find(({ channels }) => channels.some(({ channel }) => channel === event.channel));
  if (!panel || !label)
    throw new Error(`Event "${event.name}" lies on channel ${event.channel}, which this figure does not show.`);
  const [x, y] = [time(event.time), panel.scale(event.value)];
  const labelY = EVENT_LABELS_TOP + label.row * ROW;
  return [
    {
      mark: 'line',
      part: 'leader',
      points: [
        [x, labelY],
        [x, y - EVENT_RADIUS],
      ],
      stroke: { ink: 'petrol', width: 0.6, dash: [1.5, 1.5] },
    },
    { mark: 'dot', part: 'event', note: event.name, at: [x, y], radius: EVENT_RADIUS, form: 'ring', ink: 'petrol' },
    {
      mark: 'text',
      part: 'event label',
      text: event.name,
      at: [label.from, labelY + LABEL_TEXT - 1],
      size: LABEL_TEXT,
      anchor: 'start',
      ink: 'petrol',
    },
  ];
}
