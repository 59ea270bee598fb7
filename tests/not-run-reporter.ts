import { type Reporter, type TestModule } from 'vitest/node';

/** Lists every test that was not run, with what to install, so that a missing tool never looks like a pass. */
export default class NotRunReporter implements Reporter {
  onTestRunEnd(modules: readonly TestModule[]): void {
    const notRun = modules.flatMap((module) => [...module.children.allTests('skipped')]);
    if (notRun.length === 0) return;
    console.log(`\n${notRun.length} not run:`);
    for (const test of notRun) console.log(`  ${test.fullName}`);
  }
}
