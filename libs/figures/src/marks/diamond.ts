import type { AreaMark, Place } from '../scene.js';

/** Corners of a square on its corner that looks as large as a dot of this radius. */
export function diamondCorners([x, y]: Place, radius: number): Place[] {
  const r = radius * 1.2;
  return [
    [x, y - r],
    [x + r, y],
    [x, y + r],
    [x - r, y],
  ];
}

/** An item under question: a square on its corner, told from the round dots of what is known. */
export function diamond(at: Place, radius: number, given: Pick<AreaMark, 'part' | 'note'> = {}): AreaMark {
  return { mark: 'area', ...given, points: diamondCorners(at, radius), fill: 'petrol' };
}
