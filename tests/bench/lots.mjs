/**
 * How often lots that just miss a claim are accepted, what pooling does to that, and whether forecasts are right on
 * average: the long form of libs/acceptance/src/lots/risks.test.ts, seeded, with progress. Writes docs/lot-risks.md.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';

const HEAD = `# How often lots are accepted wrongly

Written by \`npm run bench -- --lots\`: seeded, the same page each time, bar a change of the mathematics. Lots are drawn from
populations that just miss what the plan claims, and judged as every lot is. Accepted may be more than claimed by the chance
of the draw: of 10 000 lots at 5 % by 0.2 %, the standard error.

Judgements that simulate for each lot, of responses, and forecasts take a fifth of the lots.
`;

/** Without `out` the tables go to the screen; `only` takes the parts whose names match it. */
export function benchLots({ lots, out, only }) {
  const page = out ?? path.join(mkdtempSync(path.join(os.tmpdir(), 'breakbook-risks-')), 'risks.md');
  writeFileSync(page, HEAD);
  const { status } = spawnSync(
    'npx',
    [
      'vitest',
      'run',
      'libs/acceptance/src/lots/risks.test.ts',
      '--testTimeout=36000000',
      '--disable-console-intercept',
      ...(only ? ['-t', only] : []),
    ],
    { stdio: 'inherit', env: { ...process.env, BREAKBOOK_LOTS: String(lots), BREAKBOOK_LOT_RISKS: page } },
  );
  if (!out) console.log(readFileSync(page, 'utf8'));
  return status === 0;
}
