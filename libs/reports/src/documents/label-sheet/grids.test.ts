import { describe, expect, it } from 'vitest';
import { codeOf } from '../../parts/code.js';
import { LABEL_GRIDS } from './grids.js';

// ISO 216 and ANSI/ASME Y14.1: sizes of A4 and Letter, in mm.
const SHEETS = { A4: [210, 297], Letter: [215.9, 279.4] } as const;

describe('label grids', () => {
  it.each(Object.entries(LABEL_GRIDS))('%s lies on its sheet, no label on another', (_, grid) => {
    const [width, height] = SHEETS[grid.paper];
    expect(grid.across).toBeGreaterThanOrEqual(grid.width);
    expect(grid.down).toBeGreaterThanOrEqual(grid.height);
    expect(grid.left + (grid.columns - 1) * grid.across + grid.width).toBeLessThanOrEqual(width + 0.05);
    expect(grid.top + (grid.rows - 1) * grid.down + grid.height).toBeLessThanOrEqual(height + 0.05);
  });
});

describe('codes', () => {
  // ISO/IEC 16022: the left and the lower edge are dark throughout, the upper and the right one alternate (from memory).
  it('have the finder of a Data Matrix', () => {
    const { dark, size } = codeOf('data matrix', 'D42-401');
    expect(dark.every((row) => row[0])).toBe(true);
    expect(dark[size - 1]?.every(Boolean)).toBe(true);
    expect(dark[0]?.map(Boolean)).toEqual(Array.from({ length: size }, (_, index) => index % 2 === 0));
  });

  // ISO/IEC 18004: three finders of 7 modules, dark at their rims (from memory).
  it('have the three finders of a QR code', () => {
    const { dark, size, quiet } = codeOf('qr', 'https://lab.example/status/CT-2407-1');
    for (const [row, column] of [
      [0, 0],
      [0, size - 7],
      [size - 7, 0],
    ] as const)
      expect(dark[row]?.slice(column, column + 7)).toEqual(Array(7).fill(true));
    expect(quiet).toBe(4);
  });
});
