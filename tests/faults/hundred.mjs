// `npm run faults`: the kills of tests/faults a hundred times, or as often as the first argument says.
import { spawnSync } from 'node:child_process';

// One file after another: each is to have the machine to itself, for its times are held against a bar.
const trials = process.argv[2] ?? '100';
const { status } = spawnSync(
  process.execPath,
  ['node_modules/vitest/vitest.mjs', 'run', '--no-file-parallelism', 'tests/faults'],
  {
    stdio: 'inherit',
    env: { ...process.env, FAULT_TRIALS: trials },
  },
);
process.exit(status ?? 70);
