import { type Problem, Refusal } from '@breakbook/lab';
import { printable, wrapped } from './terminal.js';

/** A refusal as a person reads it: each problem's sentence, what was expected, what to do, and the code to look up. */
export function printRefusal(refusal: Refusal): string {
  const lines = refusal.problems.map(printProblem);
  const more = refusal.problemCount - refusal.problems.length;
  if (more > 0) lines.push(`... and ${more} more.`);
  return lines.join('\n');
}

export function printProblem(problem: Problem): string {
  const parts = [printable(problem.detail)];
  if (problem.expected && !problem.detail.includes(problem.expected))
    parts.push(`Expected ${printable(problem.expected)}.`);
  if (problem.action && !problem.detail.includes(problem.action)) parts.push(printable(problem.action));
  return `${wrapped(parts.join(' '))}\n    (${problem.code})`;
}

/** A file named on the command line that is not there, or not to be read. */
export function unreadable(file: string): Refusal {
  return new Refusal({
    code: 'file.missing',
    file: printable(file),
    detail: `${printable(file)}: this file cannot be read.`,
    expected: 'a file that can be read',
    action: 'Check the name of the file and whether you may read it.',
  });
}
