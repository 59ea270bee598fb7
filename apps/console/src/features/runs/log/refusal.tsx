import { type Problem, shown } from '@breakbook/lab';
import { Link } from 'react-router';
import { ProblemAnswer } from '../../../client/problem-answer.js';
import { Table } from '../../../parts/table.js';

/** Why a run was not taken: every problem with its place, what was expected, what to do; and what became of the bytes. */
export function Refusal({ error }: { error: Error }) {
  const refused = error instanceof ProblemAnswer ? error.refused : { problems: [], count: 0 };
  return (
    <div role="alert" className="refusal">
      <h3>{error instanceof ProblemAnswer && error.title !== '' ? error.title : 'Not taken'}</h3>
      {refused.problems.length === 0 ? (
        <p>
          {error.message} {error instanceof ProblemAnswer && error.action}
        </p>
      ) : (
        <ProblemTable problems={refused.problems} />
      )}
      {refused.count > refused.problems.length && refused.problems.length > 0 && (
        <p className="quiet">
          These are the first {refused.problems.length} of {refused.count} problems.
        </p>
      )}
      <p>
        {refused.unreadFileId === undefined ? (
          'Nothing was recorded, and everything typed here is as you left it.'
        ) : (
          <>
            No run was recorded. The bytes are kept as an <Link to="/unread">unread file</Link>, to be read again or
            discarded by a second person. What you typed is as you left it: put right what is named above and send it
            again.
          </>
        )}
      </p>
    </div>
  );
}

export function ProblemTable({ problems }: { problems: readonly Problem[] }) {
  return (
    <Table<Problem>
      caption="What was found, where, what was expected and what to do"
      columns={[
        { head: 'Where', cell: (one) => <Place of={one} /> },
        { head: 'What is wrong', wide: true, cell: ({ detail }) => detail },
        { head: 'Found', cell: ({ found }) => (found === undefined ? '' : <bdi>{shown(found)}</bdi>) },
        { head: 'Expected', wide: true, cell: ({ expected }) => expected ?? '' },
        { head: 'To do', wide: true, cell: ({ action }) => action ?? '' },
      ]}
      rows={problems}
      rowKey={(one) => JSON.stringify(one)}
      empty=""
    />
  );
}

function Place({ of: { file, line, column, pointer } }: { of: Problem }) {
  if (file === undefined && line === undefined) return pointer ?? 'the run as a whole';
  return (
    <>
      <bdi>{file === undefined ? 'the file' : shown(file)}</bdi>
      {line !== undefined && <span className="whole">, line {line}</span>}
      {column !== undefined && <span className="whole">, column {column}</span>}
    </>
  );
}
