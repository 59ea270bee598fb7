import { writeStudy } from './study-page.mjs';

const HEAD = `# How often comparisons call out what does not differ

Written by \`npm run bench -- --comparisons\`: seeded, the same page each time, bar a change of the mathematics. Reference and
items are drawn from one population of lots, each item from a lot of its own, and compared as every case is, with 95 %
confidence over three characteristics by Holm: burst pressure (normal, below), mass (lognormal, either side) and heat
(Weibull, below, every test ended by the rig one scatter above the mean, so that some values of both sides are known as "at
least" only). A comparison counts as called where any item is "not consistent" in any of the three. Of 10 000 comparisons
at 5 % the standard error is 0.2 %.
`;

/**
 * How often items are called not consistent that are made as the reference is, and whether items are found that differ by
 * the smallest difference: the long form of libs/acceptance/src/comparisons/risks.test.ts. Writes docs/comparison-risks.md.
 */
export function benchComparisons({ comparisons, out, only }) {
  return writeStudy({
    head: HEAD,
    test: 'libs/acceptance/src/comparisons/risks.test.ts',
    variables: { draws: 'BREAKBOOK_COMPARISONS', page: 'BREAKBOOK_COMPARISON_RISKS' },
    draws: comparisons,
    out,
    only,
  });
}
