import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { reviewsQuery } from '../../../client/queries.js';
import { needsPassphrase } from '../../../client/read.js';
import { send } from '../../../client/send.js';
import { useSent } from '../../../client/use-sent.js';
import { FormProblem, TextArea } from '../../../parts/field.js';
import { moment } from '../../../parts/moment.js';
import { Section } from '../../../parts/sheet/sheet.js';
import { Who } from '../../../parts/who.js';
import { useMe } from '../../people/me.js';
import { PassphraseAgain } from '../../people/passphrase-again.js';
import type { RunOnSheet } from '../use-run-sheet.js';
import { whyNotMine } from '../validity/why-not-mine.js';

/** Who went through the run once its validity was decided? A second look, with limits and verdicts in sight. */
export function ReviewSection({ answer, record, around }: RunOnSheet) {
  const me = useMe();
  const { run } = answer.run;
  const decided = record.validity !== 'not decided' && record.validity !== 'void';
  const { data } = useQuery({ ...reviewsQuery(run), enabled: decided });
  if (!decided) return null;
  const items = data?.items ?? [];
  const current = items.some((one) => one.current);
  const not = whyNotMine(me, record);
  return (
    <Section
      question="Who has reviewed it?"
      word="Review"
      aside="After validity: results, verdicts and flags are gone through by somebody who recorded nothing of the run."
    >
      {data?.outsideCompetence !== undefined && (
        <p>
          <strong>Flag</strong> {data.outsideCompetence}
        </p>
      )}
      {items.map(({ by, at, note, current: stands }) => (
        <p key={at}>
          {moment(at, around.lab.zone)}, by <Who people={around.people} person={by} />
          {stands ? '.' : '; more was said of the run since.'} {note !== undefined && <bdi>{note}</bdi>}
        </p>
      ))}
      {items.length === 0 && <p>Nobody yet. No lot is decided about before its runs are reviewed.</p>}
      {!current &&
        data &&
        (not === undefined ? (
          <ReviewForm run={run} version={record.version} flags={record.reading.flags.length} />
        ) : (
          <p>{not}</p>
        ))}
    </Section>
  );
}

function ReviewForm({ run, version, flags }: { run: string; version: number; flags: number }) {
  const [note, setNote] = useState('');
  const review = useSent({
    send: () =>
      send('POST /api/runs/{run}/reviews', {
        path: { run },
        body: note.trim() === '' ? {} : { note: note.trim() },
        follows: version,
      }),
    renews: ['run', 'disposition'],
  });
  return (
    <>
      <form
        className="form"
        onSubmit={(event) => {
          event.preventDefault();
          review.mutate(undefined);
        }}
      >
        <TextArea
          label={flags > 0 ? 'How the flags of its files were dealt with' : 'Note, if there is something to say'}
          rows={2}
          value={note}
          onChange={({ target }) => setNote(target.value)}
        />
        <FormProblem error={needsPassphrase(review.error) ? null : review.error} />
        <button type="submit" className="action main" disabled={review.isPending || (flags > 0 && note.trim() === '')}>
          I have reviewed run {run}
        </button>
      </form>
      <PassphraseAgain error={review.error} onGiven={() => review.mutate(undefined)} />
    </>
  );
}
