import { boundsInWords, limitName, Paragraph } from '@breakbook/lab';
import { useInfiniteQuery, useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { Link } from 'react-router';
import type { ConcessionRecord } from '../../client/answers.js';
import { concessionsQuery, labQuery, peopleQuery } from '../../client/queries.js';
import { needsPassphrase } from '../../client/read.js';
import { send } from '../../client/send.js';
import { useSent } from '../../client/use-sent.js';
import { dispositionAddress } from '../../parts/addresses.js';
import { capital } from '../../parts/capital.js';
import { Choice } from '../../parts/choice.js';
import { FormProblem, TextArea } from '../../parts/field.js';
import { Listing } from '../../parts/listing.js';
import { day, moment } from '../../parts/moment.js';
import { Facts, Fold } from '../../parts/sheet/sheet.js';
import { Who } from '../../parts/who.js';
import { useMe } from '../people/me.js';
import { PassphraseAgain } from '../people/passphrase-again.js';
import '../unread/unread-page.css';
import { AskForConcession } from './ask-for-concession.js';

/** Leave to depart from a requirement of the lab's own: what was asked for, and how it stands. */
export function ConcessionsPage() {
  const list = useInfiniteQuery(concessionsQuery);
  const { duties } = useMe();
  return (
    <Listing
      title="Concessions"
      things="concessions"
      sentence="Bounded leave to depart from a limit of the lab’s own: a deviation permit before a test, a concession after a failure. It changes no verdict, and no limit from outside is ever conceded."
      list={list}
    >
      {(items) => (
        <>
          {items.length === 0 ? (
            <p className="nothing">None was asked for.</p>
          ) : (
            <ol className="unread">
              {items.map((one) => (
                <li key={`${one.number} ${one.version}`}>
                  <ConcessionItem one={one} />
                </li>
              ))}
            </ol>
          )}
          {['define', 'record', 'review', 'decide', 'draw'].some((duty) => duties.includes(duty as 'define')) && (
            <AskForConcession />
          )}
        </>
      )}
    </Listing>
  );
}

function ConcessionItem({ one }: { one: ConcessionRecord }) {
  const { data: people = [] } = useQuery(peopleQuery);
  const { data: lab } = useQuery(labQuery);
  const me = useMe();
  const { number, state, expired, content, requestedBy, requestedAt, by, at, reason } = one;
  const { kind, lot, limit, departure, bounds, until } = content;
  const own = requestedBy === me.person;
  return (
    <article>
      <h2>
        {capital(kind)} {number}: {expired ? 'granted, and over' : state}
      </h2>
      <p>
        Lot <Link to={dispositionAddress(lot)}>{lot}</Link>
        {limit && <>, limit {limitName(limit)}</>}: <bdi>{departure}</bdi>
      </p>
      <Facts
        of={[
          { term: 'Reaches', says: boundsInWords(bounds) },
          { term: 'Holds until', says: day(until) },
          { term: 'Reason', says: <bdi>{content.reason}</bdi> },
          { term: 'Risk', says: <bdi>{content.risk}</bdi> },
          {
            term: 'Asked for',
            says: (
              <>
                {moment(requestedAt, lab?.zone ?? 'UTC')}, by <Who people={people} person={requestedBy} />
              </>
            ),
          },
          ...(state === 'requested'
            ? []
            : [
                {
                  term: capital(state),
                  says: (
                    <>
                      {moment(at, lab?.zone ?? 'UTC')}, by <Who people={people} person={by} />: <bdi>{reason}</bdi>
                    </>
                  ),
                },
              ]),
        ]}
      />
      {state === 'requested' && me.duties.includes('decide') && !own && (
        <Decide one={one} moves={['grant', 'refusal']} word="Grant or refuse it" />
      )}
      {state === 'requested' && own && (
        <p className="quiet">You asked for it, so somebody else grants or refuses it.</p>
      )}
      {(state === 'requested' || state === 'granted') && (own || me.duties.includes('decide')) && (
        <Decide one={one} moves={['withdrawal']} word="Take it back" />
      )}
    </article>
  );
}

const MOVES = {
  grant: { word: 'grant', button: 'Grant' },
  refusal: { word: 'refuse', button: 'Refuse' },
  withdrawal: { word: 'take back', button: 'Take back' },
} as const;
type Move = keyof typeof MOVES;

function Decide({ one, moves, word }: { one: ConcessionRecord; moves: readonly [Move, ...Move[]]; word: string }) {
  const [move, setMove] = useState<Move>(moves[0]);
  const [reason, setReason] = useState('');
  const decide = useSent({
    send: () =>
      send(`POST /api/concessions/{n}/${move}`, {
        path: { n: `${one.number}` },
        body: { reason: reason.trim() },
        follows: one.version,
      }),
    renews: ['concessions', 'disposition'],
  });
  return (
    <Fold word={word}>
      <form
        className="form"
        onSubmit={(event) => {
          event.preventDefault();
          decide.mutate(undefined);
        }}
      >
        {moves.length > 1 && (
          <Choice
            legend="I"
            options={moves.map((value) => ({ value, word: MOVES[value].word }))}
            chosen={move}
            onChoose={setMove}
          />
        )}
        <TextArea
          label="Why"
          rows={2}
          value={reason}
          onChange={({ target }) => setReason(target.value)}
          hint={
            move === 'grant'
              ? 'After this the lot can be accepted on concession, by two deciders, as far as this limit stood in the way. What does not conform still does not.'
              : 'After this it covers nothing.'
          }
          required
        />
        <FormProblem error={needsPassphrase(decide.error) ? null : decide.error} />
        <button
          type="submit"
          className="action"
          disabled={decide.isPending || !Paragraph.safeParse(reason.trim()).success}
        >
          {MOVES[move].button} {one.content.kind} {one.number}
        </button>
      </form>
      <PassphraseAgain error={decide.error} onGiven={() => decide.mutate(undefined)} />
    </Fold>
  );
}
