import { NewDisposal, Paragraph } from '@breakbook/lab';
import { useInfiniteQuery, useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { DisposalRecord } from '../../client/answers.js';
import { disposalsQuery, labQuery, peopleQuery } from '../../client/queries.js';
import { send } from '../../client/send.js';
import { useSent } from '../../client/use-sent.js';
import { Field, FormProblem, TextArea } from '../../parts/field.js';
import { moment } from '../../parts/moment.js';
import { Fold, Section } from '../../parts/sheet/sheet.js';
import { Who } from '../../parts/who.js';
import { namesIn } from '../nonconformities/names-in.js';
import { AgainForm } from '../people/again-form.js';
import { useMe } from '../people/me.js';
import { Obstacles } from './obstacles.js';

const RENEWS = ['disposals', 'keeping', 'specimen', 'specimens'];
const HANDS = ['draw', 'record', 'decide'] as const;

/** Remnants that somebody wants to be rid of, and what became of that. */
export function DisposalsSection() {
  const { data } = useInfiniteQuery(disposalsQuery);
  const { duties } = useMe();
  const items = data?.pages.flatMap((page) => page.items) ?? [];
  return (
    <Section
      question="What is to be disposed of, and what was?"
      word="Disposals"
      aside="Asked for by one person, authorised by another, recorded when it was done. It cannot be undone."
    >
      {items.length === 0 && <p className="nothing">No disposal was asked for.</p>}
      {items.map((one) => (
        <DisposalItem key={`${one.number} ${one.version}`} one={one} />
      ))}
      {HANDS.some((duty) => duties.includes(duty)) && (
        <Fold word="Ask for a disposal">
          <AskForm />
        </Fold>
      )}
    </Section>
  );
}

function DisposalItem({ one }: { one: DisposalRecord }) {
  const { data: people = [] } = useQuery(peopleQuery);
  const { data: lab } = useQuery(labQuery);
  const { duties, person } = useMe();
  const { number, state, content, askedBy, items, obstacles, done } = one;
  const zone = lab?.zone ?? 'UTC';
  const open = state === 'asked for' || state === 'authorised';
  const own = askedBy === person;
  return (
    <article>
      <h3>
        Disposal {number}, {state}
      </h3>
      <p>
        {content.specimens.length === 1 ? 'Specimen' : 'Specimens'} {content.specimens.join(', ')}:{' '}
        <bdi>{content.reason}</bdi> How: <bdi>{content.how}</bdi>
        {content.exception !== undefined && (
          <>
            {' '}
            Before its day, as an exception: <bdi>{content.exception}</bdi>
          </>
        )}
      </p>
      {done && (
        <p>
          Done {moment(done.at, zone)}, {done.place}, by <bdi>{done.by}</bdi>: <bdi>{done.how}</bdi>
        </p>
      )}
      {open && <Obstacles of={obstacles} />}
      <ul className="notes">
        {items.map(({ state: then, by, at, reason }) => (
          <li key={then}>
            {then} by <Who people={people} person={by} />, {moment(at, zone)}
            {reason !== undefined && (
              <>
                : <bdi>{reason}</bdi>
              </>
            )}
          </li>
        ))}
      </ul>
      {state === 'asked for' && duties.includes('decide') && !own && (
        <>
          {obstacles.length === 0 && <Move one={one} move="authorisation" word="Authorise" />}
          <Move one={one} move="refusal" word="Refuse" />
        </>
      )}
      {state === 'authorised' && obstacles.length === 0 && HANDS.some((duty) => duties.includes(duty)) && (
        <CarryOut one={one} />
      )}
      {open && (own || duties.includes('decide')) && <Move one={one} move="withdrawal" word="Take back" />}
    </article>
  );
}

interface MoveProps {
  one: DisposalRecord;
  move: 'authorisation' | 'refusal' | 'withdrawal';
  word: string;
}

function Move({ one, move, word }: MoveProps) {
  const [reason, setReason] = useState('');
  const sent = useSent({
    send: () =>
      send(`POST /api/disposals/{n}/${move}`, {
        path: { n: `${one.number}` },
        body: { reason: reason.trim() },
        follows: one.version,
      }),
    renews: RENEWS,
  });
  return (
    <Fold word={`${word} disposal ${one.number}`}>
      <AgainForm
        sent={sent}
        button={`${word} disposal ${one.number}`}
        whole={Paragraph.safeParse(reason.trim()).success}
      >
        <Field label="Why" value={reason} onChange={({ target }) => setReason(target.value)} />
      </AgainForm>
    </Fold>
  );
}

function CarryOut({ one }: { one: DisposalRecord }) {
  const [how, setHow] = useState(one.content.how);
  const [place, setPlace] = useState('');
  const [by, setBy] = useState('');
  const [at, setAt] = useState('');
  const sent = useSent({
    send: () =>
      send('POST /api/disposals/{n}/carrying-out', {
        path: { n: `${one.number}` },
        body: { how: how.trim(), place: place.trim(), by: by.trim(), at: new Date(at).toISOString() },
        follows: one.version,
      }),
    renews: RENEWS,
  });
  const whole = [how, place, by].every((text) => text.trim() !== '') && !Number.isNaN(Date.parse(at));
  return (
    <Fold word={`Record that disposal ${one.number} was carried out`}>
      <AgainForm sent={sent} button="It was carried out" whole={whole}>
        <TextArea
          label="How it was done"
          hint="After this the specimens are disposed of, for good."
          rows={2}
          value={how}
          onChange={({ target }) => setHow(target.value)}
        />
        <Field label="Where" value={place} onChange={({ target }) => setPlace(target.value)} />
        <Field label="By whom" value={by} onChange={({ target }) => setBy(target.value)} />
        <Field
          label="When, by the clock of this computer"
          type="datetime-local"
          value={at}
          onChange={({ target }) => setAt(target.value)}
        />
      </AgainForm>
    </Fold>
  );
}

function AskForm() {
  const [specimens, setSpecimens] = useState('');
  const [reason, setReason] = useState('');
  const [how, setHow] = useState('');
  const [exception, setException] = useState('');
  const body = {
    specimens: namesIn(specimens),
    reason: reason.trim(),
    how: how.trim(),
    ...(exception.trim() === '' ? {} : { exception: exception.trim() }),
  };
  const sent = useSent({
    send: () => send('POST /api/disposals', { body }),
    renews: RENEWS,
    onTaken: () => {
      for (const clear of [setSpecimens, setReason, setHow, setException]) clear('');
    },
  });
  return (
    <form
      className="form"
      onSubmit={(event) => {
        event.preventDefault();
        sent.mutate(undefined);
      }}
    >
      <Field
        label="Specimens"
        hint="By their names, with blanks between."
        value={specimens}
        onChange={({ target }) => setSpecimens(target.value)}
      />
      <TextArea label="Reason" rows={2} value={reason} onChange={({ target }) => setReason(target.value)} />
      <TextArea label="How it is to be done" rows={2} value={how} onChange={({ target }) => setHow(target.value)} />
      <TextArea
        label="Why before its day"
        hint="Only where it should be done before the day until which it is kept."
        rows={2}
        value={exception}
        onChange={({ target }) => setException(target.value)}
      />
      <FormProblem error={sent.error} />
      <button type="submit" className="action" disabled={!NewDisposal.safeParse(body).success || sent.isPending}>
        Ask for it
      </button>
    </form>
  );
}
