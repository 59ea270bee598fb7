import type { CharacteristicValue } from '@breakbook/lab';
import { convert } from '@breakbook/units';
import { extent } from 'd3-array';
import { type ScaleLinear, scaleLinear } from 'd3-scale';
import { ENGLISH, type FigureLanguage } from '../language.js';
import { bottomAxis, bottomTitle, NUMBERS_HEIGHT, TITLE_HEIGHT } from '../marks/axis.js';
import { type KeyItem, key } from '../marks/key.js';
import { specimenMark } from '../marks/specimen.js';
import { FIGURE_WIDTH, type Mark, type Scene } from '../scene.js';
import { labelledLimits } from './labelled-limits.js';
import {
  type AxisQuantity,
  axisTitle,
  oneUnit,
  roundTicks,
  twoUnitTitle,
  valueWritten,
  written,
  writtenDown,
} from './numbers.js';
import { pileOf } from './pile.js';
import { type BoundWords, boundMarks } from './strip-bound.js';

export interface MarginStripInput {
  title: string;
  alt: string;
  caption: string;
  quantity: AxisQuantity;
  specimens: readonly StripSpecimen[];
  limits: readonly StripLimit[];
  bounds: readonly StripBound[];
  /** English where left out. */
  language?: FigureLanguage;
  /** In points; 170 mm where left out. */
  width?: number;
}

export interface StripSpecimen {
  label: string;
  value: CharacteristicValue;
  /** Specimens outside the claim are shown open. */
  inClaim: boolean;
}

export interface StripLimit {
  label: string;
  external: boolean;
  value: number;
  /** The side on which a value conforms. */
  conforms: 'at or above' | 'at or below';
}

export interface StripBound {
  label: string;
  value: number;
  /** The estimate the bound was drawn back from: the wedge's blunt end. */
  estimate?: number;
  /** The limit the gap is written to. */
  against?: number;
}

const SIDE = 6;
const LANE = 23;
const SECOND_SCALE = 16;
const WEDGE_WITHOUT_ESTIMATE = 26;
const ROOM_FOR_TWO_UNITS = 320;

/**
 * Does the weakest likely specimen clear the limit? One axis of one characteristic: limits as upright strokes, every
 * specimen as a dot, arrow or bar, each lower bound as a wedge whose tip is the bound, and the gap from tip to limit
 * in numbers.
 */
export function marginStrip({ language = ENGLISH, ...given }: MarginStripInput): Scene {
  const input = { ...given, quantity: { ...given.quantity, language } };
  const { quantity, specimens, limits, bounds } = input;
  const width = input.width ?? FIGURE_WIDTH.wide;
  const scale = stripScale(input, width);
  const pile = pileOf(
    specimens.map(({ value }) => value),
    scale,
  );
  const strokes = labelledLimits(
    limits.map((limit) => ({ ...limit, text: limitText(limit, quantity, width) })),
    { scale, left: 0, right: width },
  );
  const top = strokes.height + 3;
  const pileFoot = top + pile.height;
  const axisY = pileFoot + bounds.length * LANE + 4;

  const marks: Mark[] = [
    ...strokes.marks({ y: 0, top, bottom: axisY }),
    ...scales(quantity, scale, { width, axisY }),
    ...specimens.flatMap(({ label, value, inClaim }, index) =>
      specimenMark({
        value,
        scale,
        y: pileFoot - pile.radius - (pile.levels[index] ?? 0) * pile.step,
        radius: pile.radius,
        open: !inClaim,
        part: inClaim ? 'specimen' : 'specimen outside the claim',
        note: `${label}: ${valueWritten(value, quantity)}${inClaim ? '' : ', outside the claim'}`,
      }),
    ),
    ...bounds.flatMap((bound, index) => {
      const tip = scale(bound.value);
      return boundMarks(
        {
          tip,
          end: bound.estimate === undefined ? tip + WEDGE_WITHOUT_ESTIMATE : scale(bound.estimate),
          ...(bound.against === undefined ? {} : { limit: scale(bound.against) }),
          y: pileFoot + (index + 0.5) * LANE + 5,
          width,
          strokes: limits.map(({ value }) => scale(value)),
        },
        boundWords(bound, quantity),
      );
    }),
  ];
  const foot = axisY + NUMBERS_HEIGHT + (quantity.second ? SECOND_SCALE : 0) + TITLE_HEIGHT;
  const keys = key(keyItems(input), { left: 0, right: width, y: foot });
  return {
    width,
    height: foot + keys.height,
    title: input.title,
    alt: input.alt,
    caption: input.caption,
    marks: [...marks, ...keys.marks],
  };
}

/** Only the signs that this strip shows. */
function keyItems({ specimens, bounds, quantity }: MarginStripInput): KeyItem[] {
  const { say } = quantity.language ?? ENGLISH;
  const inClaim = specimens.filter((specimen) => specimen.inClaim);
  const has = (kind: CharacteristicValue['kind']) => specimens.some(({ value }) => value.kind === kind);
  const outside = specimens.length - inClaim.length;
  return [
    ...(inClaim.length > 0
      ? [{ sign: 'disc', text: say('specimen in the claim ({n})', { n: inClaim.length }) } as const]
      : []),
    ...(outside > 0 ? [{ sign: 'ring', text: say('outside the claim ({n})', { n: outside }) } as const] : []),
    ...(has('atLeast') ? [{ sign: 'dot with arrow', text: say('at least') } as const] : []),
    ...(has('between') ? [{ sign: 'bar', text: say('between') } as const] : []),
    ...(bounds.length > 0
      ? [{ sign: 'wedge', text: say('lower bound at its tip, estimate at its end') } as const]
      : []),
  ];
}

/** The strip's scale: every specimen, limit and bound has a place on it. */
export function stripScale(input: MarginStripInput, width: number): ScaleLinear<number, number> {
  const values = [
    ...input.specimens.flatMap(({ value }) => (value.kind === 'between' ? [value.lower, value.upper] : [value.value])),
    ...input.limits.map(({ value }) => value),
    ...input.bounds.flatMap(({ value, estimate, against }) => [value, estimate ?? value, against ?? value]),
  ];
  const [low = 0, high = 1] = extent(values);
  const span = high - low || Math.abs(high) * 0.1 || 1;
  // The arrow of an "at least" at the right end needs room.
  return scaleLinear([low - span * 0.06, high + span * 0.07], [SIDE, width - SIDE]);
}

/** A limit's wording: with the second unit only where the picture is wide enough for it. */
function limitText({ label, value }: StripLimit, quantity: AxisQuantity, width: number): string {
  return `${label}: ${written(value, width < ROOM_FOR_TWO_UNITS ? oneUnit(quantity) : quantity)}`;
}

function boundWords({ label, value, against }: StripBound, quantity: AxisQuantity): BoundWords {
  const words = (shown: AxisQuantity) =>
    `${label}: ${writtenDown(value, shown, against === undefined ? {} : { limit: against })}`;
  const bound = { full: words(quantity), short: words(oneUnit(quantity)) };
  if (against === undefined) return { bound };
  const gap = (shown: AxisQuantity) => writtenDown(value, shown, { limit: against, distance: true });
  return { bound, gap: { full: gap(quantity), short: gap(oneUnit(quantity)) } };
}

/** The scale in the stored unit, and under it a second one in the unit readers also know. */
function scales(
  quantity: AxisQuantity,
  scale: ScaleLinear<number, number>,
  { width, axisY }: { width: number; axisY: number },
): Mark[] {
  const [low = 0, high = 1] = scale.domain();
  const count = Math.max(3, Math.round(width / 62));
  const first = bottomAxis(
    { ...roundTicks(low, high, count, quantity.language), scale },
    { from: 0, to: width, y: axisY },
  );
  const foot = axisY + NUMBERS_HEIGHT;
  const { second, unit } = quantity;
  if (!second) return [...first, bottomTitle(axisTitle(quantity), { to: width, y: foot })];

  const other = roundTicks(convert(low, unit, second.unit), convert(high, unit, second.unit), count, quantity.language);
  return [
    ...first,
    ...bottomAxis(
      { ...other, scale: (value) => scale(convert(value, second.unit, unit)) },
      { from: 0, to: width, y: axisY + SECOND_SCALE, quiet: true },
    ),
    bottomTitle(twoUnitTitle(quantity, second.unit), { to: width, y: foot + SECOND_SCALE }),
  ];
}
