import { describe, expect, it } from 'vitest';
import { percent } from './percent.js';

describe('percent', () => {
  it.each([
    [0.9, '90 %'],
    [0.95, '95 %'],
    [0.99, '99 %'],
    [0.999, '99.9 %'],
    [0.9999999, '99.99999 %'],
    [0.29, '29 %'],
    [0.57, '57 %'],
    [0.1, '10 %'],
    [0.0000001, '0.00001 %'],
    [0.00000000001, '0.000000001 %'],
  ])('%d is %s', (fraction, words) => {
    expect(percent(fraction)).toBe(words);
  });
});
