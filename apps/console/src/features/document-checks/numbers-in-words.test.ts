import { expect, it } from 'vitest';
import { differsBy, numbersInWords } from './numbers-in-words.js';

const plain = (text: string) => text.replaceAll(/[\u00a0\u202f]/g, ' ').replaceAll('\u2212', '-');
const since = { methods: ['SW-BURST rev. 2', 'SW-HEAT rev. 1'], software: 'breakbook 0.1.0' };

it('says that each number is identical, or how many are not and since which revisions', () => {
  expect(numbersInWords({ numbers: 191, count: 0, since })).toBe('191 numbers: each identical, to its last bit');
  expect(numbersInWords({ numbers: 191, count: 1, since })).toBe(
    '191 numbers: 1 place differs since SW-BURST rev. 2, SW-HEAT rev. 1, breakbook 0.1.0; every other number is identical, to its last bit',
  );
  expect(numbersInWords({ numbers: 191, count: 2, since })).toContain('2 places differ since');
});

it('says by how much a number differs, and where there is none to subtract, what there is', () => {
  expect(differsBy({ kept: '1500', now: '1500.25' })).toBe('+0.250');
  expect(plain(differsBy({ kept: '1842.36', now: '1842.3599999999997' }))).toBe('-2.27e-13');
  expect(differsBy({ kept: '"conforms"', now: '"does not conform"' })).toBe('other words');
  expect(differsBy({ now: '3' })).toBe('not in the document');
  expect(differsBy({ kept: '3' })).toBe('no more there');
});
