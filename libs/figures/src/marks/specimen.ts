import type { CharacteristicValue } from '@breakbook/lab';
import type { Ink, Mark } from '../scene.js';

export interface SpecimenMark {
  value: CharacteristicValue;
  scale: (value: number) => number;
  y: number;
  radius: number;
  /** A ring instead of a disc: shown, but outside the claim. */
  open?: boolean;
  ink?: Ink;
  part?: string;
  note?: string;
}

/** Length of the arrow of an "at least" or "at most", from the middle of its dot. */
export function arrowLength(radius: number): number {
  return 3.4 * radius + 2;
}

/** One specimen: a dot where the value is exact, a dot with an arrow where it is at least or at most, a bar between. */
export function specimenMark({ value, scale, y, radius, open = false, ink = 'ink', part, note }: SpecimenMark): Mark[] {
  const common = { part: part ?? 'specimen', ...(note === undefined ? {} : { note }) };
  const form = open ? 'ring' : 'disc';
  if (value.kind === 'between') {
    const [left, right] = [scale(value.lower), scale(value.upper)];
    const half = radius * 0.7;
    const outline = [
      [left, y - half],
      [right, y - half],
      [right, y + half],
      [left, y + half],
    ] as const;
    return [
      open
        ? { mark: 'area', ...common, points: outline, fill: 'paper', stroke: { ink, width: 0.9 } }
        : { mark: 'area', ...common, points: outline, fill: ink },
    ];
  }
  const x = scale(value.value);
  const dot: Mark = { mark: 'dot', ...common, at: [x, y], radius, form, ink };
  if (value.kind === 'exact') return [dot];
  const direction = value.kind === 'atLeast' ? 1 : -1;
  const tip = x + direction * arrowLength(radius);
  const head = radius * 0.9 + 0.4;
  return [
    {
      mark: 'line',
      part: 'arrow',
      points: [
        [x + direction * radius, y],
        [tip, y],
      ],
      stroke: { ink, width: 0.8 },
    },
    {
      mark: 'line',
      part: 'arrow',
      points: [
        [tip - direction * head, y - head],
        [tip, y],
        [tip - direction * head, y + head],
      ],
      stroke: { ink, width: 0.8 },
    },
    dot,
  ];
}
