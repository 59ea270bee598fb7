import type { PrintUnits } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import { attachedJson } from '../compose-document.js';
import { lotTestReport } from '../documents/lot-test-report/index.js';
import { inventedContent } from '../fixtures/invented-lot.js';
import { printedUnits } from './printed-units.js';
import { printingOf } from './printing.js';
import { besideInWords, measuredInWords, quantityInWords } from './units.js';

const plain = (text: string) => text.replace(/[\u00a0\u202f]/g, ' ');
const inUnits = (units: PrintUnits) => printingOf({ print: { paper: 'A4', language: 'en', units } });
const exact = (value: number, unit: string, uncertainty?: number) => ({
  value: { kind: 'exact' as const, value },
  unit,
  ...(uncertainty === undefined ? {} : { uncertainty }),
});

describe('units as the reader chooses', () => {
  // Factors of NIST SP 811 (2008), appendix B: 1 psi = 6.894 757 kPa, 1 ft·lbf = 1.355 818 J, 1 lbf = 4.448 222 N,
  // 1 in = 25.4 mm, 1 oz = 28.349 52 g, t/°C = (t/°F − 32)/1.8.
  it.each<[units: PrintUnits, value: number, unit: string, uncertainty: number, said: string]>([
    [{ pressure: 'bar' }, 1842, 'kPa', 14, '18.42 bar'],
    [{ pressure: '[psi]' }, 1842, 'kPa', 14, '267.2 psi'],
    [{ pressure: 'kPa' }, 17, 'bar', 0.14, '1 700 kPa'],
    [{ temperature: '[degF]' }, 180, 'Cel', 2, '356.0 °F'],
    [{ energy: '[ft_i].[lbf_av]' }, 40, 'J', 1.2, '29.50 ft·lbf'],
    [{ energy: 'J' }, 0.45, 'kJ', 0.012, '450 J'],
    [{ force: '[lbf_av]' }, 9800, 'N', 120, '2 203 lbf'],
    [{ length: '[in_i]' }, 0.46, 'mm', 0.04, '0.0181 in'],
    [{ mass: '[oz_av]' }, 0.54, 'kg', 0.01, '19.05 oz'],
  ])('are converted and rounded to the uncertainty in them: %o', (units, value, unit, uncertainty, said) => {
    expect(plain(measuredInWords(exact(value, unit, uncertainty), inUnits(units))[0])).toBe(said);
  });

  it('leave stresses, torques and differences of temperature as they are', () => {
    const { of } = printedUnits({ pressure: 'bar', energy: 'J', temperature: '[degF]' });
    expect(['MPa', 'N.m', 'K'].map(of)).toEqual(['MPa', 'N.m', 'K']);
  });

  it('keep the place of the last digit that somebody wrote down', () => {
    expect(quantityInWords(0.54, 'kg', inUnits({ mass: '[oz_av]' }))).toBe('19.0 oz');
    expect(quantityInWords(22, 'Cel', inUnits({ temperature: '[degF]' }))).toBe('72 °F');
    expect(quantityInWords(0.54, 'kg', inUnits({}))).toBe('0.54 kg');
  });

  it('stand beside a limit, which stays as it was declared', () => {
    expect(plain(besideInWords(1500, 'kPa', inUnits({ pressure: 'bar' })))).toBe('15.00 bar, 217.6 psi');
    expect(plain(besideInWords(1500, 'kPa', inUnits({})))).toBe('217.6 psi');
  });

  it('change the figures too, and nothing that is kept', () => {
    const content = inventedContent({ specimens: 10 });
    const printed = { ...content, print: { paper: 'A4', language: 'en', units: { pressure: 'bar' } } } as const;
    const titles = (one: typeof content) =>
      JSON.stringify(lotTestReport(one).sections).match(/Burst pressure \(gauge\), \w+ above, \w+ below/g);
    expect(titles(content)).toEqual(['Burst pressure (gauge), kPa above, psi below']);
    expect(titles(printed)).toEqual(['Burst pressure (gauge), bar above, psi below']);
    const { print, ...rest } = JSON.parse(attachedJson(printed));
    expect(print).toEqual(printed.print);
    expect(rest).toEqual(JSON.parse(attachedJson(content)));
  });
});
