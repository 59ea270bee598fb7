import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import { type FormEvent, useState } from 'react';
import type { Checkpoint } from '../../client/answers.js';
import { checkpointsQuery, labQuery } from '../../client/queries.js';
import { send } from '../../client/send.js';
import { Field, FormProblem, TextArea } from '../../parts/field.js';
import { moment } from '../../parts/moment.js';
import { Fold } from '../../parts/sheet/sheet.js';

/** How far the ledger had grown, signed: to be taken away, and to be held against the ledger later. */
export function Checkpoints({ signs }: { signs: boolean }) {
  const queries = useQueryClient();
  const { data } = useQuery(checkpointsQuery);
  const { data: lab } = useQuery(labQuery);
  const sign = useMutation({
    mutationFn: () => send('POST /api/ledger/checkpoints'),
    onSuccess: () => queries.invalidateQueries({ queryKey: checkpointsQuery.queryKey }),
  });
  const last = data?.items[0];
  return (
    <section className="verify" aria-labelledby="checkpoints">
      <h2 id="checkpoints">Checkpoints</h2>
      <p>
        A checkpoint says how far the ledger had grown, signed with the lab’s key. Kept where the lab cannot reach it,
        it shows later that no entry before it was taken out or written anew.
      </p>
      {signs && (
        <button type="button" className="action" onClick={() => sign.mutate()} disabled={sign.isPending}>
          Sign a checkpoint now
        </button>
      )}
      <FormProblem error={sign.error} />
      {last ? (
        <p role="status">
          The last one was signed on {moment(last.at, lab?.zone ?? 'UTC')}, over {last.size} entries.{' '}
          <a href={`data:text/plain;charset=utf-8,${encodeURIComponent(last.note)}`} download={fileOf(last)}>
            Take it with you
          </a>
          , and note the key beside it: <code>{last.key}</code>
        </p>
      ) : (
        data && <p role="status">None was signed yet.</p>
      )}
      <Compare />
    </section>
  );
}

function fileOf({ size }: Checkpoint): string {
  return `ledger-checkpoint-${size}.txt`;
}

/** Holds a checkpoint that was kept elsewhere against the ledger as it is. */
function Compare() {
  const [note, setNote] = useState('');
  const [key, setKey] = useState('');
  const compare = useMutation({
    mutationFn: () => send('POST /api/ledger/checkpoints/comparison', { body: { note, key: key.trim() } }),
  });
  const submit = (event: FormEvent) => {
    event.preventDefault();
    compare.mutate();
  };
  const found = compare.data;
  return (
    <Fold word="Compare one that was kept elsewhere">
      <form className="form" onSubmit={submit}>
        <TextArea
          label="Its note"
          hint="The whole file, its last line too."
          rows={6}
          value={note}
          onChange={(event) => setNote(event.target.value)}
          required
        />
        <Field label="The key beside it" value={key} onChange={(event) => setKey(event.target.value)} required />
        <button type="submit" className="action" disabled={compare.isPending}>
          Compare
        </button>
      </form>
      <p role="status">
        {found?.holds === true &&
          `The ledger of ${found.now.size} entries begins with the ${found.earlier.size} that the checkpoint was signed over.`}
        {found?.holds === false && `The ledger is not the one the checkpoint was signed over: ${found.because}.`}
      </p>
      <FormProblem error={compare.error} />
    </Fold>
  );
}
