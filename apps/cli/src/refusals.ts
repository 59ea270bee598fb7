import { type Problem, type Refusal } from '@breakbook/lab';
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
