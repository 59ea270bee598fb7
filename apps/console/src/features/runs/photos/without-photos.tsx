import type { Examination } from '@breakbook/lab';
import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import type { RunRecord } from '../../../client/answers.js';
import { seatTaken } from '../../../client/queries.js';
import { isSignedOut } from '../../../client/read.js';
import { send } from '../../../client/send.js';
import { FormProblem, TextArea } from '../../../parts/field.js';

/** Says in the examination why photos that were asked for were not taken. */
export function WithoutPhotos({ record, examination }: { record: RunRecord; examination: Examination }) {
  const queries = useQueryClient();
  const { run } = record.run;
  const [why, setWhy] = useState('');
  const say = useMutation({
    mutationFn: (withoutPhotos: string) =>
      send('POST /api/runs/{run}/examination', {
        path: { run },
        body: { examination: { ...examination, withoutPhotos }, reason: 'photos that are asked for were not taken' },
        follows: record.version,
      }),
    onError: (error) => {
      if (isSignedOut(error)) seatTaken(queries, null);
    },
    onSuccess: () => queries.invalidateQueries({ queryKey: ['run', run] }),
  });
  return (
    <form
      className="form wide"
      onSubmit={(event) => {
        event.preventDefault();
        if (why.trim() !== '') say.mutate(why.trim());
      }}
    >
      <TextArea
        label="Why they were not taken"
        value={why}
        rows={2}
        maxLength={300}
        onChange={({ target }) => setWhy(target.value)}
        hint="It is kept in the examination and printed with it."
      />
      <FormProblem error={say.error} />
      <button className="action" type="submit" disabled={why.trim() === '' || say.isPending}>
        Keep this reason
      </button>
    </form>
  );
}
