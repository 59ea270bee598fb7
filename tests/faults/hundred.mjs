// `npm run faults`: the kills of tests/faults a hundred times, or as often as the first argument says.
import { spawnSync } from 'node:child_process';

const trials = process.argv[2] ?? '100';
const { status } = spawnSync(process.execPath, ['node_modules/vitest/vitest.mjs', 'run', 'tests/faults'], {
  stdio: 'inherit',
  env: { ...process.env, FAULT_TRIALS: trials },
});
process.exit(status ?? 70);
