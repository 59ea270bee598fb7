import { describe, expect, it } from 'vitest';
import { readNumber, scanNumber } from './number.js';

describe('readNumber', () => {
  // The language's own reading is correctly rounded (ECMA-262, 7.1.4.1, StringToNumber); ours must agree with it bit for bit.
  it.each([
    '0',
    '7',
    '-7',
    '+7',
    '101.3',
    '.5',
    '5.',
    '-0.002',
    '1e3',
    '1E-3',
    '2.5e+02',
    '0.1',
    '0.3',
    '1234.5678',
    '123456789012345',
    '9007199254740993',
    '0.1000000000000000055511151231257827',
    '179769313486231.57',
    '1.7976931348623157e19',
    '4.35',
    '0.000001',
    '1e-22',
    '3e-23',
    '2.2250738585072014e-308',
    '00012.50',
    '123456789012345e-22',
    '0.30000000000000004',
    // Round the most that 32 bits hold, and the digits that are read by them.
    '999999999',
    '-999999999.',
    '0.999999999',
    '2147483647',
    '2147483648',
    '-2147483.649',
    '4294967296.5',
    '99999.99999',
    '000000000001.5',
  ])('reads %s as the nearest double', (text) => {
    expect(readNumber(text)).toEqual({ value: Number(text) });
  });

  it('agrees with the language on a hundred thousand seeded decimals', () => {
    let state = 20310304;
    const next = () => {
      state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
      return state;
    };
    let differing = 0;
    for (let i = 0; i < 100_000; i++) {
      const digits = `${next()}${next()}`.slice(0, 1 + (next() % 19));
      const point = next() % (digits.length + 1);
      const exponent = next() % 3 === 0 ? `e${(next() % 31) - 15}` : '';
      const text = `${next() % 2 ? '-' : ''}${digits.slice(0, point)}.${digits.slice(point)}${exponent}`;
      const expected = Number(text);
      const read = readNumber(text);
      if (Math.abs(expected) <= 1e20 && !('value' in read && read.value === expected)) differing++;
    }
    expect(differing).toBe(0);
  });

  it('takes blanks round a number and makes a negative zero zero', () => {
    expect(readNumber('  4.5 ')).toEqual({ value: 4.5 });
    expect(Object.is((readNumber('-0.00') as { value: number }).value, 0)).toBe(true);
  });

  it.each([
    ['', 'number.missing'],
    ['   ', 'number.missing'],
    ['NaN', 'number.not-finite'],
    ['-Infinity', 'number.not-finite'],
    ['INF', 'number.not-finite'],
    ['1e400', 'number.out-of-range'],
    ['1e-400', 'number.out-of-range'],
    ['2e20', 'number.out-of-range'],
    ['1,5', 'number.decimal-comma'],
    ['1.234,5', 'number.decimal-comma'],
    ['1,234.5', 'number.thousands'],
    ["1'234", 'number.thousands'],
    ['1 234', 'number.thousands'],
    ['12,345,678', 'number.thousands'],
    ['OL', 'number.syntax'],
    ['OPEN', 'number.syntax'],
    ['Err', 'number.syntax'],
    ['0x1F', 'number.syntax'],
    ['1_000', 'number.syntax'],
    ['12.5 kPa', 'number.syntax'],
    ['#DIV/0!', 'number.syntax'],
    ['--5', 'number.syntax'],
    ['1e', 'number.syntax'],
    ['.', 'number.syntax'],
    ['１２', 'number.syntax'],
    ['2031-03-04 09:00:00', 'number.syntax'],
    ['1.2.3', 'number.syntax'],
  ])('refuses %j with %s, and says what to do', (text, code) => {
    expect(readNumber(text)).toMatchObject({
      code,
      said: { sentence: expect.any(String), expected: expect.stringContaining('101.3'), action: expect.any(String) },
    });
  });
});

describe('scanNumber', () => {
  it('answers the place after the number', () => {
    const into = new Float64Array(2);
    expect(scanNumber(new TextEncoder().encode('12.5,7\n'), 0, into, 0)).toBe(4);
    expect(scanNumber(new TextEncoder().encode('12.5,7\n'), 5, into, 1)).toBe(6);
    expect([...into]).toEqual([12.5, 7]);
  });
});
