import { describe, expect, it } from 'vitest';
import { alignedAtPoint, printAmount, printNumber, printUncertainty, type ReaderChoice } from './print-value.js';
import { FIRST_UNITS, type UnitChoice } from './reader-unit.js';

const reader = (units: Partial<UnitChoice>, digits: ReaderChoice['digits'] = 'rounded'): ReaderChoice => ({
  units: { ...FIRST_UNITS, ...units },
  digits,
});
const kPa = reader({});
const psi = reader({ pressure: '[psi]' });
const plain = (text: string) => text.replaceAll(/[\u00a0\u202f]/g, ' ');

describe('a value for a reader', () => {
  it('is rounded to its uncertainty in the unit it is shown in', () => {
    const value = { kind: 'exact', value: 1841.55 } as const;
    expect(plain(printAmount(value, 'kPa', kPa, { uncertainty: 14.2 }))).toBe('1 842 kPa');
    // 1 psi = 6.894757293168 kPa (NIST SP 811, 2008, B.8): 267.094 psi, U = 2.06 psi.
    expect(plain(printAmount(value, 'kPa', psi, { uncertainty: 14.2 }))).toBe('267.1 psi');
    expect(printUncertainty(14.2, 'kPa', psi)).toBe('2.1');
  });

  it('shows temperatures, energies and forces in the unit a reader chose for each', () => {
    // 180 °C is 356 °F: NIST SP 811 (2008), B.8, t/°F = 1.8 t/°C + 32; an uncertainty of 3 °C is 5.4 °F.
    const hot = reader({ temperature: '[degF]' });
    expect(plain(printAmount({ kind: 'exact', value: 180 }, 'Cel', hot, { uncertainty: 3 }))).toBe('356.0 °F');
    expect(printUncertainty(3, 'Cel', hot)).toBe('5.4');
    expect(printNumber(-10, 'Cel', hot, { signed: true })).toBe('−18.00');
    // 1 ft·lbf = 1.355 818 J and 1 lbf = 4.448 222 N: same table.
    const feet = reader({ energy: '[ft_i].[lbf_av]', force: '[lbf_av]' });
    expect(plain(printAmount({ kind: 'exact', value: 42 }, 'J', feet))).toBe('30.98 ft·lbf');
    expect(plain(printAmount({ kind: 'exact', value: 4.5 }, 'kN', feet))).toBe('1 012 lbf');
    expect(plain(printAmount({ kind: 'exact', value: 42 }, 'J', kPa))).toBe('42.00 J');
    expect(plain(printAmount({ kind: 'exact', value: 318 }, 'kJ', kPa))).toBe('318.0 kJ');
    expect(plain(printAmount({ kind: 'exact', value: 12 }, 'K', hot))).toBe('12.00 K');
  });

  it('says at least, never a sign', () => {
    expect(plain(printAmount({ kind: 'atLeast', value: 2000 }, 'kPa', kPa))).toBe('at least 2 000 kPa');
  });

  it('stays on its side of a limit in every unit', () => {
    expect(plain(printNumber(1499.97, 'kPa', kPa, { uncertainty: 14, limits: [1500] }))).toBe('1 499.97');
    expect(printNumber(1499.97, 'kPa', reader({ pressure: 'bar' }), { limits: [1500] })).toBe('14.9997');
  });

  it('rounds a bound down and shows the sign of a margin', () => {
    expect(plain(printNumber(1591.99, 'kPa', kPa, { bound: true }))).toBe('1 591');
    expect(printNumber(91.4, 'kPa', kPa, { signed: true })).toBe('+91.40');
    expect(printNumber(-60, 'kPa', kPa, { signed: true })).toBe('−60.00');
  });

  it('shows every digit when asked', () => {
    expect(plain(printNumber(1841.5527, 'kPa', reader({}, 'full'), { uncertainty: 14 }))).toBe('1 841.5527');
  });

  it('aligns a column at its decimal signs', () => {
    expect(alignedAtPoint(['1842.5', '99', 'not evaluated'])).toEqual(['1842.5', '99\u2008\u2007', 'not evaluated']);
  });
});
