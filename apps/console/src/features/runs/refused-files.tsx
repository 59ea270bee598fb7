import { type Problem, shown } from '@breakbook/lab';

/** Why the files of a run were refused: what, where, what was expected, what to do. */
export function RefusedFiles({ run, problems }: { run: string; problems: readonly Problem[] }) {
  return (
    <div>
      <h3>The file of run {run} was refused; its bytes are kept unread</h3>
      <ul className="notes">
        {problems.map((problem) => (
          <li key={`${problem.code} ${problem.line} ${problem.column} ${problem.detail}`}>
            {problem.detail}
            {problem.found !== undefined && <> Found: “{shown(problem.found)}”.</>}
            {problem.expected !== undefined && <> Expected: {problem.expected}.</>}
            {problem.action !== undefined && <> {problem.action}</>}
          </li>
        ))}
      </ul>
    </div>
  );
}
