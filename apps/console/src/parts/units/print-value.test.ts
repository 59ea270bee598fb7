import { describe, expect, it } from 'vitest';
import { alignedAtPoint, printAmount, printNumber, printUncertainty, type ReaderChoice } from './print-value.js';

const kPa: ReaderChoice = { pressure: 'kPa', digits: 'rounded' };
const psi: ReaderChoice = { pressure: '[psi]', digits: 'rounded' };
const plain = (text: string) => text.replaceAll(/[\u00a0\u202f]/g, ' ');

describe('a value for a reader', () => {
  it('is rounded to its uncertainty in the unit it is shown in', () => {
    const value = { kind: 'exact', value: 1841.55 } as const;
    expect(plain(printAmount(value, 'kPa', kPa, { uncertainty: 14.2 }))).toBe('1 842 kPa');
    // 1 psi = 6.894757293168 kPa (NIST SP 811, 2008, B.8): 267.094 psi, U = 2.06 psi.
    expect(plain(printAmount(value, 'kPa', psi, { uncertainty: 14.2 }))).toBe('267.1 psi');
    expect(printUncertainty(14.2, 'kPa', psi)).toBe('2.1');
  });

  it('says at least, never a sign', () => {
    expect(plain(printAmount({ kind: 'atLeast', value: 2000 }, 'kPa', kPa))).toBe('at least 2 000 kPa');
  });

  it('stays on its side of a limit in every unit', () => {
    expect(plain(printNumber(1499.97, 'kPa', kPa, { uncertainty: 14, limits: [1500] }))).toBe('1 499.97');
    expect(printNumber(1499.97, 'kPa', { pressure: 'bar', digits: 'rounded' }, { limits: [1500] })).toBe('14.9997');
  });

  it('rounds a bound down and shows the sign of a margin', () => {
    expect(plain(printNumber(1591.99, 'kPa', kPa, { bound: true }))).toBe('1 591');
    expect(printNumber(91.4, 'kPa', kPa, { signed: true })).toBe('+91.40');
    expect(printNumber(-60, 'kPa', kPa, { signed: true })).toBe('−60.00');
  });

  it('shows every digit when asked', () => {
    expect(plain(printNumber(1841.5527, 'kPa', { pressure: 'kPa', digits: 'full' }, { uncertainty: 14 }))).toBe(
      '1 841.5527',
    );
  });

  it('aligns a column at its decimal signs', () => {
    expect(alignedAtPoint(['1842.5', '99', 'not evaluated'])).toEqual(['1842.5', '99\u2008\u2007', 'not evaluated']);
  });
});
