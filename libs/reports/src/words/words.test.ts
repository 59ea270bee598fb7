import { describe, expect, it } from 'vitest';
import { dayOf, daysOf, timeOf } from './dates.js';
import { secondUnit } from './printed-units.js';
import { both, boundInUnits, marginInWords, measuredInWords, uncertaintyInWords } from './units.js';

const plain = (text: string) => text.replace(/[\u00a0\u202f]/g, ' ');

describe('pressures in two units', () => {
  // NIST SP 811 (2008), appendix B: 1 psi = 6.894 757 kPa; 1 500 kPa / 6.894757 = 217.557 psi.
  it('prints psi beside kPa', () => {
    expect(plain(both(measuredInWords({ value: { kind: 'exact', value: 1500 }, unit: 'kPa' })))).toBe(
      '1 500 kPa (217.6 psi)',
    );
  });

  it('rounds both to the uncertainty', () => {
    // U = 14 kPa is 2.03 psi.
    const words = measuredInWords({ value: { kind: 'exact', value: 1842.36 }, unit: 'kPa', uncertainty: 14 });
    expect(words.map(plain)).toEqual(['1 842 kPa', '267.2 psi']);
    expect(uncertaintyInWords(14, 'kPa').map(plain)).toEqual(['14 kPa', '2.0 psi']);
  });

  it('says "at least" in both', () => {
    expect(measuredInWords({ value: { kind: 'atLeast', value: 2000 }, unit: 'kPa' }).map(plain)).toEqual([
      'at least 2 000 kPa',
      'at least 290.1 psi',
    ]);
  });

  it('prints a bound no higher than it is, in either unit', () => {
    // 1 578.8 / 6.894 757 = 228.986
    expect(boundInUnits(1578.8, 'kPa', 1500).map(plain)).toEqual(['1 578 kPa', '228.9 psi']);
  });

  it('prints a margin with its sign, rounded down', () => {
    expect(plain(marginInWords(42.7, { unit: 'kPa', value: 1542.7, limit: 1500 })[0])).toBe('+42 kPa');
    expect(plain(marginInWords(0.5 - 0.04, { unit: 'mm', value: 0.04, limit: 0.5, uncertainty: 0.038 })[0])).toBe(
      '+0.460 mm',
    );
    expect(plain(marginInWords(0.5, { unit: 'mm', value: 0, limit: 0.5, uncertainty: 0.038 })[0])).toBe('+0.500 mm');
    expect(plain(marginInWords(0.5, { unit: 'mm', value: 0, limit: 0.5 })[0])).toBe('+0.5000 mm');
    expect(plain(marginInWords(-10.2, { unit: 'kPa', value: 1489.8, limit: 1500 })[0])).toBe('−11 kPa');
  });

  it('has no second unit for what is no pressure', () => {
    expect(secondUnit('s')).toBeUndefined();
    expect(secondUnit('kPa/s')).toBeUndefined();
    expect(secondUnit('bar')).toBe('[psi]');
    expect(secondUnit('[psi]')).toBe('kPa');
  });
});

describe('days and times', () => {
  // Copenhagen is one hour before UTC in winter, two in summer (tz database).
  it('are told where the lab is', () => {
    expect(timeOf('2031-02-20T23:30:00Z', 'Europe/Copenhagen')).toBe('2031-02-21 00:30');
    expect(timeOf('2030-07-01T23:30:00Z', 'Europe/Copenhagen')).toBe('2030-07-02 01:30');
    expect(dayOf('2031-02-20T23:30:00Z', 'America/New_York')).toBe('2031-02-20');
  });

  it('are told as a span', () => {
    expect(daysOf(['2031-02-06T10:00:00Z', '2031-02-05T10:00:00Z'], 'Europe/Copenhagen')).toBe(
      '2031-02-05 to 2031-02-06',
    );
    expect(daysOf(['2031-02-05T10:00:00Z', '2031-02-05T12:00:00Z'], 'Europe/Copenhagen')).toBe('2031-02-05');
    expect(daysOf([], 'Europe/Copenhagen')).toBe('none');
  });
});
