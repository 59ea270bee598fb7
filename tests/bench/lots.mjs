/**
 * How often lots that just miss a claim are accepted, what pooling does to that, and whether forecasts are right on
 * average: the long form of libs/acceptance/src/lots/risks.test.ts, seeded, with progress. Writes docs/lot-risks.md.
 */
import { writeStudy } from './study-page.mjs';

const HEAD = `# How often lots are accepted wrongly

Written by \`npm run bench -- --lots\`: seeded, the same page each time, bar a change of the mathematics. Lots are drawn from
populations that just miss what the plan claims, and judged as every lot is. Accepted may be more than claimed by the chance
of the draw: of 10 000 lots at 5 % by 0.2 %, the standard error.

Judgements that simulate for each lot, of responses, and forecasts take a fifth of the lots.
`;

export function benchLots({ lots, out, only }) {
  return writeStudy({
    head: HEAD,
    test: 'libs/acceptance/src/lots/risks.test.ts',
    variables: { draws: 'BREAKBOOK_LOTS', page: 'BREAKBOOK_LOT_RISKS' },
    draws: lots,
    out,
    only,
  });
}
