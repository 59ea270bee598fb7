import { spawnSync } from 'node:child_process';
import { type Reporter, type TestCase, type TestModule } from 'vitest/node';

/** Minutes in which a test file that runs must end a test, unless the time of its tests is longer. */
const LONGEST_QUIET = 10;
/** Seconds between two looks. */
const BETWEEN = 5;

interface Running {
  since: number;
  tests: Map<TestCase, number>;
}

/**
 * A test that computes for ever, or waits for a program that waits for it, is not ended by its time: nothing else runs in
 * its process. This looks at the run from outside. Where a file ends no test for too long, it tells which file that is
 * and which programs run for it, and ends its process: the file fails, the run goes on and ends.
 */
export default class StuckReporter implements Reporter {
  #files = new Map<TestModule, Running>();
  #moved = Date.now();
  #timer: NodeJS.Timeout | undefined;
  #longest: number;

  constructor({ minutes = LONGEST_QUIET }: { minutes?: number } = {}) {
    this.#longest = minutes * 60_000;
  }

  onTestRunStart(): void {
    this.#moved = Date.now();
    this.#timer = setInterval(() => this.#look(), BETWEEN * 1000);
  }

  onTestRunEnd(): void {
    clearInterval(this.#timer);
  }

  onTestModuleQueued(module: TestModule): void {
    this.#files.set(module, { since: Date.now(), tests: new Map() });
    this.#moved = Date.now();
  }

  onTestModuleCollected(module: TestModule): void {
    this.#move(module);
  }

  onTestModuleEnd(module: TestModule): void {
    this.#files.delete(module);
    this.#moved = Date.now();
  }

  onTestCaseReady(test: TestCase): void {
    this.#move(test.module);
    this.#files.get(test.module)?.tests.set(test, Date.now());
  }

  onTestCaseResult(test: TestCase): void {
    this.#move(test.module);
    this.#files.get(test.module)?.tests.delete(test);
  }

  #move(module: TestModule): void {
    const running = this.#files.get(module);
    this.#moved = Date.now();
    if (running) running.since = this.#moved;
  }

  #look(): void {
    const now = Date.now();
    const stuck = [...this.#files].filter(([, { since, tests }]) => {
      const times = [...tests.keys()].map(({ options }) => 2 * (options.timeout ?? 0));
      return now - since > Math.max(this.#longest, ...times);
    });
    // Where no file runs, a process does not give itself back: the run would wait for it for ever.
    const nothing = this.#files.size === 0 && now - this.#moved > this.#longest;
    if (stuck.length === 0 && !nothing) return;
    for (const [module, { since, tests }] of stuck) {
      console.error(`\nSTUCK: ${module.relativeModuleId} has ended no test for ${minutes(now - since)} min.`);
      for (const [test, began] of tests) console.error(`  for ${minutes(now - began)} min: ${test.fullName}`);
    }
    if (nothing)
      console.error(`\nSTUCK: no test file runs and the run has not ended for ${minutes(now - this.#moved)} min.`);
    endProcesses();
    for (const running of this.#files.values()) running.since = Date.now();
    this.#moved = Date.now();
  }
}

interface Process {
  pid: number;
  parent: number;
  line: string;
}

function endProcesses(): void {
  const mine = descendants(process.pid);
  console.error('Processes of the run (pid, parent, seconds, command):');
  for (const { line } of mine) console.error(`  ${line.slice(0, 200)}`);
  // The one database server of the run serves the files that come after.
  for (const { pid } of mine.filter(({ line }) => !line.includes('postgres'))) end(pid);
}

function end(pid: number): void {
  try {
    process.kill(pid, 'SIGKILL');
  } catch {
    // It has ended by itself.
  }
}

function descendants(of: number): Process[] {
  const all = spawnSync('ps', ['-eo', 'pid,ppid,etimes,args'], { encoding: 'utf8', maxBuffer: 2 ** 26 })
    .stdout.split('\n')
    .map((line) => ({ line: line.trim(), numbers: line.trim().split(/\s+/).map(Number) }))
    .map(({ line, numbers: [pid = 0, parent = 0] }) => ({ pid, parent, line }));
  const below = (parent: number): Process[] =>
    all.filter((one) => one.parent === parent).flatMap((one) => [one, ...below(one.pid)]);
  return below(of);
}

function minutes(milliseconds: number): string {
  return (milliseconds / 60_000).toFixed(1);
}
