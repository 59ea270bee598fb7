import { describe, expect, it } from 'vitest';
import {
  decimalsBeside,
  decimalsFor,
  printDeclared,
  printDown,
  printFixed,
  printQuantity,
  printSignificant,
} from './print.js';

// GUM (JCGM 100:2008) 7.2.6: U to at most two significant digits, the value rounded to the same place.
describe('printing', () => {
  it('rounds a value to its uncertainty', () => {
    expect(printQuantity({ value: 1842.36, unit: 'kPa' }, { uncertainty: 14.2 })).toBe('1 842 ± 14 kPa');
    expect(printQuantity({ value: 1842.36, unit: 'kPa' }, { uncertainty: 14.2, unit: 'bar' })).toBe('18.42 ± 0.14 bar');
  });

  it('keeps two digits of an uncertainty that rounds up into the next decade', () => {
    expect(decimalsFor(0.0996)).toBe(2);
    expect(decimalsFor(0.099)).toBe(3);
  });

  it('writes a true minus sign and no minus zero', () => {
    expect(printFixed(-12.34, 1)).toBe('−12.3');
    expect(printFixed(-0.04, 1)).toBe('0.0');
  });

  it('prints significant digits without an exponent', () => {
    expect(printSignificant(0.000123456, 3)).toBe('0.000123');
    expect(printSignificant(99.96, 3)).toBe('100');
    expect(printSignificant(12345.6, 4)).toBe('12 350');
    expect(printSignificant(1.23456e-187, 3)).toBe('1.23e-187');
  });

  it('keeps every digit of a declared number', () => {
    expect(printDeclared(1500)).toBe('1 500');
    expect(printDeclared(1378.9515)).toBe('1 378.9515');
  });

  it('rounds a lower bound down, also below zero', () => {
    expect(printDown(1578.6, 0)).toBe('1 578');
    expect(printDown(-19.4, 0)).toBe('−20');
    expect(printDown(1578, 0)).toBe('1 578');
    expect(printDown(228.99, 1)).toBe('228.9');
    expect(printDown(0.5 - 0.04, 2)).toBe('0.46');
  });

  it('never prints a value on the other side of a limit than it lies', () => {
    expect(decimalsBeside(1499.7, undefined, [])).toBe(0);
    expect(decimalsBeside(1499.7, undefined, [1500])).toBe(1);
    expect(decimalsBeside(1499.96, 14, [1500])).toBe(2);
    expect(decimalsBeside(1500, 14, [1500])).toBe(0);
  });
});
