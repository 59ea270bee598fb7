/**
 * Counts how often the characteristics of runs with known truth lie within their stated uncertainty: 95 %, give or take 2.
 * The long form of libs/signals/src/runs/coverage.test.ts, seeded; some minutes, and a quarter of an hour for drags,
 * each of which draws thousands of trials of its own.
 *
 *   node tests/bench/signals-coverage.mjs                2000 runs of each rig
 *   node tests/bench/signals-coverage.mjs --runs 5000    more
 *   node tests/bench/signals-coverage.mjs --of bursts    of one rig
 *
 * Ends with status 1 where one of them does not.
 */
import { spawnSync } from 'node:child_process';
import { parseArgs } from 'node:util';

const { values } = parseArgs({
  options: { runs: { type: 'string', default: '2000' }, of: { type: 'string', default: '' } },
});
const runs = Number(values.runs);
if (!Number.isSafeInteger(runs) || runs < 2000)
  throw new RangeError('signals-coverage: --runs is a whole number of 2000 or more; fewer cannot tell 93 % from 95 %.');

const { status } = spawnSync(
  'npx',
  [
    'vitest',
    'run',
    'libs/signals/src/runs/coverage.test.ts',
    '--testTimeout=3600000',
    ...(values.of ? ['-t', values.of] : []),
  ],
  { stdio: 'inherit', env: { ...process.env, BREAKBOOK_COVERAGE_RUNS: String(runs) } },
);
process.exitCode = status === 0 ? 0 : 1;
