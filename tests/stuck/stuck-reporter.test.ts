import { spawnSync } from 'node:child_process';
import { expect, it } from 'vitest';

it('ends a run in which a file computes for ever, and says which one', () => {
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    ['node_modules/vitest/vitest.mjs', 'run', '--config', 'tests/stuck/endless.config.ts', '--root', '.'],
    { encoding: 'utf8', timeout: 120_000, env: { ...process.env, NO_COLOR: '1', FORCE_COLOR: undefined } },
  );
  expect(stderr).toContain('STUCK: tests/stuck/endless.fixture.ts has ended no test');
  expect(stderr).toMatch(/^ +\d+ +\d+ +\d+ .*vitest/m);
  expect(stdout).toMatch(/✓ tests\/stuck\/ends\.fixture\.ts/);
  expect(status).toBe(1);
}, 150_000);
