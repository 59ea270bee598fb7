import { describe, expect, it } from 'vitest';
import { chanceAllConform } from './chance-all-conform.js';

// Exact whole-number arithmetic (Python 3, math.comb): C(N - bad, n) / C(N, n); for a process the power (1 - share)^n.
describe('chanceAllConform', () => {
  it.each([
    [8, 0.1, undefined, 0.43046721],
    [5, 0.05, undefined, 0.7737809375],
    [22, 0.1, undefined, 0.09847709021836118],
    [18, 0.125, 40, 0.04002079002079002],
    [8, 0.07, 100, 0.5472760152190083],
    [8, 0.9, 10, 0],
  ])('%i specimens, share %d, lot %s: %d', (n, share, lotSize, chance) => {
    expect(chanceAllConform(n, share, lotSize)).toBeCloseTo(chance, 12);
  });
});
