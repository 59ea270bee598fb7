import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { format } from 'node:util';
import { breakbook as command } from '../apps/cli/src/index.ts';

const root = fileURLToPath(new URL('..', import.meta.url));

/** What a call of the command line ended with and printed. */
export interface Ended {
  status: number | null;
  stdout: string;
  stderr: string;
}

/** The command line as it ships, in a process of its own: for what only a process shows. */
export function breakbookProcess(words: readonly string[], input = ''): Ended {
  const { status, stdout, stderr } = spawnSync(process.execPath, [`${root}apps/cli/bin/breakbook.mjs`, ...words], {
    cwd: root,
    encoding: 'utf8',
    input,
  });
  return { status, stdout, stderr };
}

/**
 * The same within this process, which has its rooms loaded: to load them is most of what a short command computes. What
 * it prints is caught on its way to the console; calls wait for each other.
 */
export function breakbook(...words: string[]): Promise<Ended> {
  const call = before.then(() => called(words));
  before = call.catch(() => undefined);
  return call;
}

let before: Promise<unknown> = Promise.resolve();

async function called(words: readonly string[]): Promise<Ended> {
  const own = { log: console.log, error: console.error };
  const printed = { log: '', error: '' };
  for (const stream of ['log', 'error'] as const)
    console[stream] = (...said: unknown[]) => {
      printed[stream] += `${format(...said)}\n`;
    };
  try {
    const status = await command(words);
    return { status, stdout: printed.log, stderr: printed.error };
  } finally {
    Object.assign(console, own);
  }
}
