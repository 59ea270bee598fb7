import { describe, expect, it } from 'vitest';
import { generatorFrom, seededGenerator } from './generator.js';

describe('generatorFrom', () => {
  // Outputs of the authors' xoshiro128starstar.c (prng.di.unimi.it), as quoted in test suites of two ports of it.
  it.each([
    { state: [1, 2, 3, 4] as const, words: [11520, 0, 5927040, 70819200, 2031721883, 1637235492] },
    {
      state: [0x964d4a0c, 0xd40ab895, 0xad7fdecb, 0x3006f0f0] as const,
      words: [0xf1391922, 0x6fe53806, 0xa5be2840, 0xf510ee70],
    },
  ])('follows the reference implementation from $state', ({ state, words }) => {
    const { word } = generatorFrom(state);
    expect(words.map(() => word())).toEqual(words);
  });

  it('refuses the one state it could never leave', () => {
    expect(() => generatorFrom([0, 0, 0, 0])).toThrow('zeros');
  });
});

describe('seededGenerator', () => {
  it('gives the same numbers for the same seed and others for the next', () => {
    const draw = (seed: number) => Array.from({ length: 5 }, seededGenerator(seed).uniform);
    expect(draw(7)).toEqual(draw(7));
    expect(draw(7)).not.toEqual(draw(8));
    expect(draw(7)).not.toEqual(draw(7 + 2 ** 32));
  });

  it('has the mean and scatter of what it is asked for', () => {
    const { normal, weibull } = seededGenerator(20);
    const count = 40_000;
    const normals = Array.from({ length: count }, normal);
    const mean = normals.reduce((sum, z) => sum + z, 0) / count;
    const variance = normals.reduce((sum, z) => sum + (z - mean) ** 2, 0) / count;
    // Four standard errors each.
    expect(Math.abs(mean)).toBeLessThan(4 / Math.sqrt(count));
    expect(Math.abs(variance - 1)).toBeLessThan(4 * Math.sqrt(2 / count));

    const weak = Array.from({ length: count }, () => weibull({ shape: 2, scale: 10 })).filter((x) => x < 10).length;
    expect(Math.abs(weak / count - (1 - Math.exp(-1)))).toBeLessThan(4 * Math.sqrt(0.25 / count));
  });
});
