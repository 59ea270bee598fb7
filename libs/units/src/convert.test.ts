import { describe, expect, it } from 'vitest';
import { convert, sameDimension } from './convert.js';
import { unitByCode } from './unit.js';

describe('convert', () => {
  // NIST SP 811 (2008), appendix B, factors in bold (exact) and psi to the digits of 4.4482216152605 N / (0.0254 m)².
  it.each([
    ['[in_i]', 'mm', 25.4],
    ['[ft_i]', 'm', 0.3048],
    ['[lb_av]', 'kg', 0.45359237],
    ['[lbf_av]', 'N', 4.4482216152605],
    ['kgf', 'N', 9.80665],
    ['[psi]', 'Pa', 6894.757293168362],
    ['[psi]', 'kPa', 6.894757293168361],
    ['[psi]', 'bar', 0.06894757293168362],
    ['bar', 'kPa', 100],
    ['bar', '[psi]', 14.50377377302092],
    ['kPa', '[psi]', 0.14503773773020923],
    ['MPa', '[psi]', 145.03773773020922],
    ['atm', 'kPa', 101.325],
    ['[ft_i].[lbf_av]', 'J', 1.3558179483314003],
    ['[in_i].[lbf_av]', 'J', 0.1129848290276167],
    ['kgf/cm2', 'kPa', 98.0665],
    ['[mi_i]/h', 'm/s', 0.44704],
    ['km/h', 'm/s', 0.2777777777777778],
    ['[g]', 'm/s2', 9.80665],
    ['W.h', 'J', 3600],
    ['L', 'mL', 1000],
    ['bar/mL', 'kPa/mL', 100],
    ['kN/mm', 'N/mm', 1000],
  ])('1 %s in %s is %d', (from, to, factor) => {
    expect(Math.abs(convert(1, from, to) / factor - 1)).toBeLessThanOrEqual(1e-15);
  });

  // NIST SP 811 (2008), appendix B.8: t/°C = (t/°F − 32)/1.8.
  it.each([
    [-40, '[degF]', 'Cel', -40],
    [0, '[degF]', 'Cel', -160 / 9],
    [212, '[degF]', 'Cel', 100],
    [451, '[degF]', 'K', 451 / 1.8 + 459.67 / 1.8],
    [-273.15, 'Cel', '[degF]', -459.67],
    [350, 'Cel', 'K', 623.15],
  ])('%d %s in %s', (value, from, to, expected) => {
    expect(convert(value, from, to)).toBeCloseTo(expected, 10);
  });

  it('converts a temperature difference without the zero point', () => {
    expect(convert(9, '[degF]', 'K', { difference: true })).toBe(5);
  });

  it('leaves no noise in the last digit of a decimal value', () => {
    expect(convert(12, '[in_i]', 'mm')).toBe(304.8);
  });

  it('refuses an unlike unit and one UCUM does not know', () => {
    expect(() => convert(1, 'kPa', 'N')).toThrow('"kPa" does not convert into "N"');
    expect(() => convert(1, 'KPA', 'kPa')).toThrow('"KPA" is not a UCUM unit code');
  });
});

describe('unitByCode', () => {
  it('takes a code only as UCUM writes it', () => {
    expect(unitByCode('psi')).toBeUndefined();
    expect(unitByCode(' kPa')).toBeUndefined();
    expect(unitByCode('kPa')?.code).toBe('kPa');
  });

  it('knows torque and energy as one dimension and pressure as another', () => {
    expect(sameDimension('N.m', 'J')).toBe(true);
    expect(sameDimension('N', 'kPa')).toBe(false);
  });
});
