import type { Criterion } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import { internalLimit } from '../fixtures/invented-lot.js';
import { plainly } from '../fixtures/plainly.js';
import { boundSentence, criterionStatement, survivalSentence } from './claims.js';
import { boundInWords, valueInWords } from './numbers.js';

const limit = internalLimit(1500);
const ref = { limit: 'BP-INT', revision: 2 };

describe('claims in words', () => {
  it.each<[Criterion, string]>([
    [
      { kind: 'every specimen', criterion: 'a', limit: ref },
      'Every specimen tested conforms to the limit of at least 1 500 kPa (BP-INT rev. 2). No confidence is claimed.',
    ],
    [
      {
        kind: 'tolerance bound',
        criterion: 'b',
        limit: ref,
        distribution: 'weibull',
        coverage: 0.999,
        confidence: 0.95,
      },
      'At least 99.9 % of the process holds at least 1 500 kPa (BP-INT rev. 2), with 95 % confidence, assuming a Weibull distribution of strength.',
    ],
    [
      { kind: 'zero failures', criterion: 'c', limit: ref, reliability: 0.9, confidence: 0.95 },
      'At least 90 % of the process conforms to the limit of at least 1 500 kPa (BP-INT rev. 2), with 95 % confidence, shown by specimens of which none fails.',
    ],
  ])('says what $kind claims', (criterion, statement) => {
    expect(plainly(criterionStatement(criterion, limit, 'process'))).toBe(statement);
  });

  it('says what a bound means', () => {
    const fields = { unit: 'kPa', coverage: 0.9, confidence: 0.95, population: 'process', n: 8, failures: 7 } as const;
    expect(plainly(boundSentence({ ...fields, bound: 1480.9, limit: 1400 }))).toBe(
      'At least 90 % of the process holds 1 480 kPa or more, with 95 % confidence (8 specimens, 7 broken).',
    );
  });

  it.each([
    [1480.9, [], '1 480 kPa'],
    [1499.7, [1500], '1 499.7 kPa'],
    [1500.3, [1500], '1 500.3 kPa'],
    [0.98765, [], '0.9876 kPa'],
  ])('rounds the bound %d down, and keeps it on its side of the limit', (bound, limits, words) => {
    expect(plainly(boundInWords(bound, 'kPa', limits))).toBe(words);
  });

  // 29 survivors at 95 %: 0.05^(1/29) = 0.90186; 299: 0.99003; 5 at 90 %: 0.63096 (Clopper and Pearson 1934).
  it.each([
    [0.9018569, '90.1 %'],
    [0.990031, '99 %'],
    [0.6309573, '63 %'],
    [0.9, '90 %'],
    [0.99949, '99.949 %'],
    [1, '100 %'],
  ])('rounds a share of %d down', (reliability, words) => {
    const said = survivalSentence({ reliability, confidence: 0.95, population: 'lot', survivors: 29, limit });
    expect(said).toContain(`At least ${words} of the lot`);
  });

  it('says from which side a value is known', () => {
    expect(valueInWords({ kind: 'atMost', value: 80 }, 'K')).toBe('at most 80.00 K');
    expect(valueInWords({ kind: 'between', lower: 10, upper: 11 }, 'mm', { uncertainty: 0.2 })).toBe(
      'between 10.00 mm and 11.00 mm',
    );
  });
});
