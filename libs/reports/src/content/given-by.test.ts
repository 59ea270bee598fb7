import { describe, expect, it } from 'vitest';
import { notIncludedSection } from '../documents/lot-test-report/closing.js';
import { resultsSection } from '../documents/lot-test-report/results.js';
import { inventedContent } from '../fixtures/invented-lot.js';

const content = inventedContent({ specimens: 3 });

/** The same lot, the first run's burst pressure keyed as somebody else gave it. */
function withGiver(givenBy: 'customer' | 'outside provider') {
  const [first, ...rest] = content.bundle.runs;
  if (!first) throw new Error('the lot has a run');
  const measurement = {
    of: 'burstPressure',
    quantity: { value: 1900, unit: 'kPa' },
    instrument: 'theirs',
    givenBy,
    person: first.operator,
    at: first.startedAt,
  };
  return { ...content, bundle: { ...content.bundle, runs: [{ ...first, measurements: [measurement] }, ...rest] } };
}

// ISO/IEC 17025:2017, 7.8.2.1 p (outside providers) and 7.8.2.2 (customer); from memory.
describe('a value that this lab did not measure', () => {
  it.each([
    ['customer', '†', 'given by the customer'],
    ['outside provider', '‡', 'measured by an outside provider'],
  ] as const)('from the %s carries %s, and a note says whose it is', (giver, mark, words) => {
    const text = JSON.stringify(resultsSection(withGiver(giver)));
    expect(text).toContain(`${content.bundle.runs[0]?.specimen} ${mark}`);
    expect(text).toContain(`${mark} ${words}`);
    expect(JSON.stringify(notIncludedSection(withGiver(giver)))).toContain(`marked ${mark} above`);
  });

  it('is marked nowhere else', () => {
    expect(JSON.stringify([resultsSection(content), notIncludedSection(content)])).not.toMatch(/[†‡]/);
  });
});
