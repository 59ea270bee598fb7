import { OLD_RESULT_MARK, Paragraph } from '@breakbook/lab';
import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { useNavigate } from 'react-router';
import { ProblemAnswer } from '../../client/problem-answer.js';
import { oldTablesQuery } from '../../client/queries.js';
import { takeOldTable, tryOldTable } from '../../client/send-old-table.js';
import { oldTableAddress } from '../../parts/addresses.js';
import { DropField } from '../../parts/drop-field.js';
import { FormProblem, TextArea } from '../../parts/field.js';
import { Fold } from '../../parts/sheet/sheet.js';
import { ResultsTable } from './results-table.js';

/** A table is dropped, looked through, and taken over whole once somebody has seen what would be stored. */
export function TakeOver() {
  const queries = useQueryClient();
  const navigate = useNavigate();
  const [file, setFile] = useState<File>();
  const [note, setNote] = useState('');
  const trial = useMutation({ mutationFn: (one: File) => tryOldTable(one) });
  const take = useMutation({
    mutationFn: (one: File) => takeOldTable(one, note.trim()),
    onSuccess: ({ number }) => {
      void queries.invalidateQueries({ queryKey: oldTablesQuery.queryKey });
      void navigate(oldTableAddress(number));
    },
  });
  const { data } = trial;
  return (
    <Fold word="Take over a table">
      <form
        className="form wide"
        onSubmit={(event) => {
          event.preventDefault();
          if (file && data) take.mutate(file);
        }}
      >
        <DropField
          label="Drop the table here, or choose it: CSV, one result a row"
          accept=".csv,text/csv"
          onFiles={([one]) => {
            setFile(one);
            take.reset();
            trial.reset();
            if (one) trial.mutate(one);
          }}
        />
        {file && (
          <p className="small">
            <bdi>{file.name}</bdi>
          </p>
        )}
        <Problems error={trial.error} />
        {data && (
          <>
            <p role="status">
              This would be stored: {data.results.length} results, each {OLD_RESULT_MARK}, and the table itself, byte
              for byte. Nothing is stored yet.
            </p>
            {data.flags.map(({ detail, action }) => (
              <p key={detail}>
                {detail} {action}
              </p>
            ))}
            <ResultsTable caption="What would be stored" results={data.results} />
            <TextArea
              label="Where the table comes from"
              rows={2}
              value={note}
              onChange={({ target }) => setNote(target.value)}
            />
            <FormProblem error={take.error} />
            <button
              type="submit"
              className="action"
              disabled={take.isPending || !Paragraph.safeParse(note.trim()).success}
            >
              Take over these {data.results.length} results
            </button>
          </>
        )}
      </form>
    </Fold>
  );
}

/** Everything that is wrong with a table, cell by cell, so that it can be mended in one go. */
function Problems({ error }: { error: Error | null }) {
  const { problems, count } = error instanceof ProblemAnswer ? error.refused : { problems: [], count: 0 };
  if (problems.length < 2) return <FormProblem error={error} />;
  return (
    <div role="alert" className="form-problem">
      <ul>
        {problems.map(({ detail, expected, action }) => (
          <li key={detail}>
            {detail} {expected !== undefined && `Expected: ${expected}.`} {action}
          </li>
        ))}
      </ul>
      {count > problems.length && <p>And {count - problems.length} more.</p>}
    </div>
  );
}
