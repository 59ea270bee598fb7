import type { CharacteristicValue } from '@breakbook/lab';
import { TICK_TEXT } from '../marks/axis.js';
import { tickArrowLength } from '../marks/tick-arrow.js';
import { dodge, type Extent } from './dodge.js';

/** Values that stand in one row of a picture, under a name. */
export interface Lane {
  label: string;
  values: readonly { label: string; value: CharacteristicValue }[];
}

/** A lane with its place: how high it is, and on which level over its foot each value lies. */
export interface LaidLane extends Lane {
  height: number;
  levels: number[];
  step: number;
}

const RADII = [2.8, 2.3, 1.9, 1.5, 1.2];
const LEAST = TICK_TEXT + 2;
const PAD = 2;

/** Half of the upright stroke of a value known from one side, beside dots of this radius. */
export function tickHalf(radius: number): number {
  return radius + 0.9;
}

/**
 * Lanes one under the other with the largest dots whose piles stay low enough together; a crowd of thousands overlaps
 * rather than growing further.
 */
export function layLanes(
  lanes: readonly Lane[],
  { scale, highest }: { scale: (value: number) => number; highest: number },
): { radius: number; lanes: LaidLane[] } {
  const laid = (radius: number, room?: number) => ({
    radius,
    lanes: lanes.map((lane): LaidLane => {
      const levels = dodge(
        lane.values.map(({ value }) => extent(value, scale, radius)),
        0.5,
      );
      const top = levels.reduce((a, b) => Math.max(a, b), 0);
      const step = Math.min(2 * radius + 0.6, room === undefined ? Number.POSITIVE_INFINITY : room / Math.max(1, top));
      return { ...lane, levels, step, height: Math.max(LEAST, top * step + 2 * radius + 2 * PAD) };
    }),
  });
  const tries = RADII.map((radius) => laid(radius));
  const fits = tries.find((one) => one.lanes.reduce((sum, { height }) => sum + height, 0) <= highest);
  const smallest = RADII.at(-1) ?? 1;
  return fits ?? laid(smallest, Math.max(0, highest / Math.max(1, lanes.length) - 2 * smallest - 2 * PAD));
}

function extent(value: CharacteristicValue, scale: (value: number) => number, radius: number): Extent {
  if (value.kind === 'between') return { from: scale(value.lower), to: scale(value.upper) };
  const x = scale(value.value);
  const arrow = tickArrowLength(tickHalf(radius));
  return {
    from: x - (value.kind === 'atMost' ? arrow : radius * 1.2),
    to: x + (value.kind === 'atLeast' ? arrow : radius * 1.2),
  };
}

/** At most so many lanes: where there are more, neighbours share one. */
export function sharedLanes(
  lanes: readonly Lane[],
  most: number,
  named: (first: string, last: string) => string,
): Lane[] {
  if (lanes.length <= most) return [...lanes];
  const each = Math.ceil(lanes.length / most);
  return Array.from({ length: Math.ceil(lanes.length / each) }, (_, index) => {
    const own = lanes.slice(index * each, (index + 1) * each);
    const [first, last] = [own[0]?.label ?? '', own.at(-1)?.label ?? ''];
    return {
      label: own.length > 1 ? named(first, last) : first,
      values: own.flatMap(({ label, values }) =>
        values.map((one) => ({ ...one, label: one.label === label ? label : `${label}, ${one.label}` })),
      ),
    };
  });
}
