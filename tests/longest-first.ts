import { relative } from 'node:path';
import { BaseSequencer, type TestSpecification } from 'vitest/node';

const PROJECTS = ['whole', 'service', 'pure'];

/** Where the files lie that take longest, the longest first: minutes, where most of the others take seconds. */
const LONG = [
  /^tests\/faults\/kill/,
  /^libs\/records\/src\/database\/embedded/,
  /^tests\/(faults|house)/,
  /^tests\/browser\/(a-run-to|lot-is|each-test)/,
  /^tests\/journeys\/(every-state|command-line|plan-to-report)/,
  /^tests\/(browser|journeys)\//,
];

/**
 * In which order the test files run: the longest first, so that at the end no process waits minutes for the other. The
 * files of a project stay together, because they share a process.
 */
export class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const place = ({ project, moduleId }: TestSpecification) => {
      const long = LONG.findIndex((one) => one.test(relative(this.ctx.config.root, moduleId)));
      return PROJECTS.indexOf(project.name) * (LONG.length + 1) + (long < 0 ? LONG.length : long);
    };
    return (await super.sort(files)).sort((a, b) => place(a) - place(b));
  }
}
