import { Line, lackingToClose, type Nonconformity, Paragraph } from '@breakbook/lab';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { Link, useParams } from 'react-router';
import type { NonconformityRecord } from '../../client/answers.js';
import { labQuery, nonconformityHistoryQuery, nonconformityQuery, peopleQuery } from '../../client/queries.js';
import { needsPassphrase } from '../../client/read.js';
import { send } from '../../client/send.js';
import { useSent } from '../../client/use-sent.js';
import { dispositionAddress, specimenAddress } from '../../parts/addresses.js';
import { Field, FormProblem, TextArea } from '../../parts/field.js';
import { day, moment } from '../../parts/moment.js';
import { HeadStrip, Section, Sheet } from '../../parts/sheet/sheet.js';
import { Reading, Trouble } from '../../parts/trouble.js';
import { Who } from '../../parts/who.js';
import { useMe } from '../people/me.js';
import { PassphraseAgain } from '../people/passphrase-again.js';

const MAY_WORK = ['record', 'review', 'decide', 'draw', 'calibrate', 'define'] as const;
const RENEWS = ['nonconformity', 'nonconformities', 'disposition'];

/** One nonconformity: what was found, what caused it, what is done about it, and who closed it. */
export function NonconformityPage() {
  const { n = '' } = useParams();
  const { data, error, refetch } = useQuery(nonconformityQuery(n));
  return (
    <Sheet title={`Nonconformity ${n}`}>
      {data ? (
        <NonconformitySheet key={data.version} one={data} />
      ) : error ? (
        <Trouble error={error} onAgain={() => void refetch()} />
      ) : (
        <Reading what={`nonconformity ${n}`} />
      )}
    </Sheet>
  );
}

function NonconformitySheet({ one }: { one: NonconformityRecord }) {
  const { data: people = [] } = useQuery(peopleQuery);
  const { data: lab } = useQuery(labQuery);
  const { duties } = useMe();
  const { number, state, content, concerns, openedBy, openedAt } = one;
  const lacking = lackingToClose(content);
  return (
    <>
      <HeadStrip
        noun="Nonconformity"
        name={number}
        of={<bdi>{content.title}</bdi>}
        outcome={state}
        sentence={<bdi>{content.found}</bdi>}
        next={
          state === 'closed'
            ? 'nothing. Whoever works here may open it again, with the reason.'
            : lacking.length > 0
              ? `somebody says its ${lacking.join(', ')}.`
              : 'somebody with the duty to review or decide, who wrote nothing of it, closes it.'
        }
        facts={[
          { term: 'Opened', says: `${moment(openedAt, lab?.zone ?? 'UTC')}, ${content.source}` },
          { term: 'By', says: <Who people={people} person={openedBy} /> },
          { term: 'Due', says: content.due === undefined ? 'not set' : day(content.due) },
          {
            term: 'Lots',
            says: concerns.map((lot, index) => (
              <span key={lot}>
                {index > 0 && ', '}
                <Link to={dispositionAddress(lot)}>{lot}</Link>
              </span>
            )),
          },
          { term: 'Runs', says: content.runs.length === 0 ? 'none named' : content.runs.join(', ') },
          {
            term: 'Specimens',
            says:
              content.specimens.length === 0
                ? 'none named'
                : content.specimens.map((specimen, index) => (
                    <span key={specimen}>
                      {index > 0 && ', '}
                      <Link to={specimenAddress(specimen)}>{specimen}</Link>
                    </span>
                  )),
          },
        ]}
      />
      <Section question="What caused it, and what is done about it?" word="Cause and action">
        <dl className="facts">
          {(
            [
              ['Cause', content.cause],
              ['Containment', content.containment],
              ['Corrective action', content.correctiveAction],
            ] as const
          ).map(([term, says]) => (
            <div key={term}>
              <dt>{term}</dt>
              <dd>{says === undefined ? 'nothing said yet' : <bdi>{says}</bdi>}</dd>
            </div>
          ))}
        </dl>
        {state === 'open' && MAY_WORK.some((duty) => duties.includes(duty)) && <WorkForm one={one} />}
      </Section>
      {state === 'open' && (duties.includes('review') || duties.includes('decide')) && (
        <MoveForm one={one} move="closing" />
      )}
      {state === 'closed' && MAY_WORK.some((duty) => duties.includes(duty)) && <MoveForm one={one} move="reopening" />}
      <History number={number} />
    </>
  );
}

function WorkForm({ one }: { one: NonconformityRecord }) {
  const { content } = one;
  const [cause, setCause] = useState(content.cause ?? '');
  const [containment, setContainment] = useState(content.containment ?? '');
  const [action, setAction] = useState(content.correctiveAction ?? '');
  const [due, setDue] = useState(content.due ?? '');
  const [reason, setReason] = useState('');
  const work = useSent({
    send: () => {
      const { source: _, ...said } = content;
      return send('PUT /api/nonconformities/{n}', {
        path: { n: `${one.number}` },
        body: { reason: reason.trim(), content: { ...said, ...written({ cause, containment, action, due }) } },
        follows: one.version,
      });
    },
    renews: RENEWS,
  });
  return (
    <form
      className="form wide"
      onSubmit={(event) => {
        event.preventDefault();
        work.mutate(undefined);
      }}
    >
      <TextArea label="Cause" rows={2} value={cause} onChange={({ target }) => setCause(target.value)} />
      <TextArea
        label="Containment"
        hint="What keeps it from doing harm meanwhile."
        rows={2}
        value={containment}
        onChange={({ target }) => setContainment(target.value)}
      />
      <TextArea label="Corrective action" rows={2} value={action} onChange={({ target }) => setAction(target.value)} />
      <Field label="Due" type="date" value={due} onChange={({ target }) => setDue(target.value)} />
      <Field
        label="Why this is said now"
        value={reason}
        onChange={({ target }) => setReason(target.value)}
        hint="Whoever writes here does not close it."
        required
      />
      <FormProblem error={work.error} />
      <button type="submit" className="action" disabled={work.isPending || !Paragraph.safeParse(reason.trim()).success}>
        Keep this
      </button>
    </form>
  );
}

function written(said: { cause: string; containment: string; action: string; due: string }): Partial<Nonconformity> {
  const { cause, containment, action, due } = said;
  return {
    ...(cause.trim() === '' ? {} : { cause: cause.trim() }),
    ...(containment.trim() === '' ? {} : { containment: containment.trim() }),
    ...(action.trim() === '' ? {} : { correctiveAction: action.trim() }),
    ...(due === '' ? {} : { due }),
  };
}

const MOVES = {
  closing: {
    question: 'Is it dealt with?',
    word: 'Closing',
    label: 'What shows that it is dealt with',
    button: 'Close nonconformity',
    after: 'After this the lots it concerns can be decided about, as far as it stood in the way.',
  },
  reopening: {
    question: 'Has it come back?',
    word: 'Opening again',
    label: 'Why it is opened again',
    button: 'Open again nonconformity',
    after: 'After this no lot it concerns is decided about until it is closed again.',
  },
} as const;

function MoveForm({ one, move }: { one: NonconformityRecord; move: keyof typeof MOVES }) {
  const [reason, setReason] = useState('');
  const { question, word, label, button, after } = MOVES[move];
  const lacking = move === 'closing' ? lackingToClose(one.content) : [];
  const sent = useSent({
    send: () =>
      send(`POST /api/nonconformities/{n}/${move}`, {
        path: { n: `${one.number}` },
        body: { reason: reason.trim() },
        follows: one.version,
      }),
    renews: RENEWS,
  });
  return (
    <Section question={question} word={word}>
      {lacking.length > 0 ? (
        <p>It can be closed once its {lacking.join(', ')} are said.</p>
      ) : (
        <>
          <form
            className="form"
            onSubmit={(event) => {
              event.preventDefault();
              sent.mutate(undefined);
            }}
          >
            <Field
              label={label}
              hint={after}
              value={reason}
              onChange={({ target }) => setReason(target.value)}
              required
            />
            <FormProblem error={needsPassphrase(sent.error) ? null : sent.error} />
            <button
              type="submit"
              className="action main"
              disabled={sent.isPending || !Line.safeParse(reason.trim()).success}
            >
              {button} {one.number}
            </button>
          </form>
          <PassphraseAgain error={sent.error} onGiven={() => sent.mutate(undefined)} />
        </>
      )}
    </Section>
  );
}

function History({ number }: { number: number }) {
  const { data } = useQuery(nonconformityHistoryQuery(`${number}`));
  const { data: people = [] } = useQuery(peopleQuery);
  const { data: lab } = useQuery(labQuery);
  return (
    <Section question="Who said what of it, and when?" word="History">
      <ol className="history">
        {(data?.items ?? []).map(({ version, state, at, by, reason }) => (
          <li key={version}>
            <time dateTime={at}>{moment(at, lab?.zone ?? 'UTC')}</time>
            <p>
              {version === 1 ? 'opened' : state === 'closed' ? 'closed' : 'written in'}, by{' '}
              <Who people={people} person={by} />
              {reason === undefined ? '.' : `: ${reason}`}
            </p>
          </li>
        ))}
      </ol>
    </Section>
  );
}
