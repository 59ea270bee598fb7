import { spawnSync } from 'node:child_process';
import type { Reporter, TestCase, TestModule } from 'vitest/node';

/** Minutes in which a test file that runs must end a test, unless the time of its tests is longer. */
const LONGEST_QUIET = 10;
/** Seconds between two looks. */
const BETWEEN = 5;

interface Running {
  name: string;
  since: number;
  /** When each test that runs began, by what it is called, and how long it may take. */
  tests: Map<string, { began: number; name: string; timeout: number }>;
}

/**
 * A test that computes for ever, or waits for a program that waits for it, is not ended by its time: nothing else runs in
 * its process. This looks at the run from outside. Where a file ends no test for too long, it tells which file that is
 * and which programs run for it, and ends its process: the file fails, the run goes on and ends.
 */
export default class StuckReporter implements Reporter {
  /** By project and path: the same file is another object once it is loaded. */
  #files = new Map<string, Running>();
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
    this.#moved = Date.now();
    this.#files.set(keyOf(module), { name: module.relativeModuleId, since: this.#moved, tests: new Map() });
  }

  onTestModuleCollected(module: TestModule): void {
    this.#move(module);
  }

  onTestModuleEnd(module: TestModule): void {
    this.#files.delete(keyOf(module));
    this.#moved = Date.now();
  }

  onTestCaseReady(test: TestCase): void {
    this.#move(test.module)?.tests.set(test.id, {
      began: Date.now(),
      name: test.fullName,
      timeout: test.options.timeout ?? 0,
    });
  }

  onTestCaseResult(test: TestCase): void {
    this.#move(test.module)?.tests.delete(test.id);
  }

  #move(module: TestModule): Running | undefined {
    const running = this.#files.get(keyOf(module));
    this.#moved = Date.now();
    if (running) running.since = this.#moved;
    return running;
  }

  #look(): void {
    const now = Date.now();
    const stuck = [...this.#files.values()].filter(({ since, tests }) => {
      const times = [...tests.values()].map(({ timeout }) => 2 * timeout);
      return now - since > Math.max(this.#longest, ...times);
    });
    // Where no file runs, a process does not give itself back: the run would wait for it for ever.
    const nothing = this.#files.size === 0 && now - this.#moved > this.#longest;
    if (stuck.length === 0 && !nothing) return;
    for (const { name, since, tests } of stuck) {
      console.error(`\nSTUCK: ${name} has ended no test for ${minutes(now - since)} min.`);
      for (const test of tests.values()) console.error(`  for ${minutes(now - test.began)} min: ${test.name}`);
    }
    if (nothing)
      console.error(`\nSTUCK: no test file runs and the run has not ended for ${minutes(now - this.#moved)} min.`);
    endProcesses();
    // Whose process is gone has no end of its own; what is given to a new process is heard of again.
    this.#files.clear();
    this.#moved = Date.now();
  }
}

function keyOf({ project, moduleId }: TestModule): string {
  return `${project.name} ${moduleId}`;
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
