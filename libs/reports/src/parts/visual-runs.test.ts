import { describe, expect, it } from 'vitest';
import { visualRuns } from './visual-runs.js';

const shown = (line: string) => visualRuns(line).map(({ text, rightToLeft }) => (rightToLeft ? `<${text}>` : text));

// Unicode Standard Annex #9, rules W2, W7, N1, I1, I2 and L2 to L4, worked by hand: pieces from left to right, those that
// run from right to left between < and >.
describe('visualRuns', () => {
  it.each([
    ['Dunlin 42', ['Dunlin 42']],
    ['', []],
    ['عجلة', ['<عجلة>']],
    ['rim عجلة 2407', ['rim ', '2407', '<عجلة >']],
    ['عجلة Dunlin مختبر', ['<عجلة>', ' Dunlin ', '<مختبر>']],
    ['שלום עולם', ['<שלום עולם>']],
    ['גלגל 42, lot 7', ['42', '<גלגל >', ', lot 7']],
    // The brackets hold a number, which counts as written from right to left, after a Hebrew word (N0).
    ['שלום (42)', ['<(>', '42', '<שלום )>']],
  ])('%s', (line, runs) => {
    expect(shown(line)).toEqual(runs);
  });

  it('turns brackets among words that run from right to left', () => {
    expect(visualRuns('שלום (עולם) שלום')).toEqual([{ text: 'שלום )עולם( שלום', rightToLeft: true }]);
  });

  it('loses no letter and adds none', () => {
    for (const line of ['a عجلة (b) 12 مختبر, c', 'مختبر 1 500 kPa عجلة', 'שלום 12-14 עולם']) {
      const letters = [
        ...visualRuns(line)
          .map(({ text }) => text)
          .join(''),
      ].map((one) => (one === ')' ? '(' : one));
      expect(letters.sort()).toEqual([...line].map((one) => (one === ')' ? '(' : one)).sort());
    }
  });
});
