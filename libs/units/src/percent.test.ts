import { describe, expect, it } from 'vitest';
import { printChance, printShare } from './percent.js';

describe('a chance in print', () => {
  it.each([
    [0, 'never'],
    [0.0002, 'less than 0.1 %'],
    [0.0471, '4.7 %'],
    [0.7358, '74 %'],
    [0.994, '99.4 %'],
    [0.9999, 'more than 99.9 %'],
    [1, 'always'],
  ])('writes %f as %s', (chance, text) => {
    expect(printChance(chance)).toBe(text);
  });

  it('writes a share however small it is', () => {
    expect([0, 1e-9, 0.000114, 0.0626].map(printShare)).toEqual(['none', 'less than 0.0001 %', '0.011 %', '6.3 %']);
  });
});
