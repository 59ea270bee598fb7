import { describe, expect, it } from 'vitest';
import { chiSquareAbove, chiSquareBelow } from './chi-square.js';
import { fAbove } from './f-distribution.js';
import { tAbove, tBeyond } from './student-t.js';

/** How far off, as a share of what is expected. */
const off = (found: number, expected: number) => Math.abs(found / expected - 1);

describe('tails', () => {
  // mpmath 1.3, regularised incomplete beta function with 30 digits.
  it.each([
    [0.01, 300, 0.4960139669794409],
    [1, 1, 0.25],
    [2.5, 7, 0.02049610929287645],
    [8, 30, 3.132911237850379e-9],
    [40, 3, 1.719034039457926e-5],
    [2.041383092210067, 12.97053844325749, 0.03105067189053943],
  ])('Student t above %d with %d degrees of freedom', (t, degrees, above) => {
    expect(off(tAbove(t, degrees), above)).toBeLessThan(1e-13);
    expect(off(tBeyond(-t, degrees), 2 * above)).toBeLessThan(1e-13);
    expect(off(tAbove(-t, degrees), 1 - above)).toBeLessThan(1e-13);
  });

  // mpmath 1.3 likewise.
  it.each([
    [1.18046237440255, 4, 20, 0.3494474934021927],
    [21, 8, 180, 2.583264337268971e-22],
    [0.05, 2, 5, 0.9516989071286758],
    [2001, 8, 30, 9.749201667373631e-39],
    [2001, 40, 5, 1.816094227888855e-8],
  ])('F above %d with %d and %d degrees of freedom', (f, numerator, denominator, above) => {
    expect(off(fAbove(f, [numerator, denominator]), above)).toBeLessThan(1e-12);
  });

  // mpmath 1.3, regularised incomplete gamma function with 30 digits.
  it.each([
    [3.841458820694124, 1, 0.05, 0.95],
    [127.676665698779, 1, 1.321025655374817e-29, 1.0],
    [12.875687694846873, 3, 0.004913297517073803, 0.9950867024829262],
    [0.001, 3, 0.999991592080942, 8.40791905804616e-6],
    [2100, 2000, 0.05867111137731808, 0.9413288886226819],
  ])('chi-square beyond %d with %d degrees of freedom', (x, degrees, above, below) => {
    expect(off(chiSquareAbove(x, degrees), above)).toBeLessThan(1e-12);
    expect(off(chiSquareBelow(x, degrees), below)).toBeLessThan(1e-12);
  });
});
