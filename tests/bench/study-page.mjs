import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';

/**
 * Runs the long form of a test that writes its tables to a page: how many draws and where the page is are told by the two
 * environment variables it reads. Without `out` the tables go to the screen; `only` takes the parts whose names match it.
 */
export function writeStudy({ head, test, variables, draws, out, only }) {
  const page = out ?? path.join(mkdtempSync(path.join(os.tmpdir(), 'breakbook-study-')), 'page.md');
  writeFileSync(page, head);
  const { status } = spawnSync(
    'npx',
    ['vitest', 'run', test, '--testTimeout=36000000', '--disable-console-intercept', ...(only ? ['-t', only] : [])],
    { stdio: 'inherit', env: { ...process.env, [variables.draws]: String(draws), [variables.page]: page } },
  );
  if (!out) console.log(readFileSync(page, 'utf8'));
  return status === 0;
}
