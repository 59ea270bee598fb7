import { Line } from '@breakbook/lab';
import { printFixed } from '@breakbook/units';
import { useInfiniteQuery, useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { Link } from 'react-router';
import type { UnreadAnswer } from '../../client/answers.js';
import { labQuery, peopleQuery, rigsQuery, unreadQuery } from '../../client/queries.js';
import { send } from '../../client/send.js';
import { useSent } from '../../client/use-sent.js';
import { layoutAddress, logUnreadAddress } from '../../parts/addresses.js';
import { Choice } from '../../parts/choice.js';
import { Field } from '../../parts/field.js';
import { Listing } from '../../parts/listing.js';
import { moment } from '../../parts/moment.js';
import { Fold } from '../../parts/sheet/sheet.js';
import { Who } from '../../parts/who.js';
import { AgainForm } from '../people/again-form.js';
import { useMe } from '../people/me.js';
import { ProblemTable } from '../runs/log/refusal.js';
import './unread-page.css';

const STATES = [
  { value: 'waiting', word: 'waiting' },
  { value: 'read', word: 'read later' },
  { value: 'discarded', word: 'discarded' },
] as const;

/** Bytes of refused runs: each waits to be read for the right run, or to be discarded by a second person. */
export function UnreadPage() {
  const [state, setState] = useState<UnreadAnswer['state']>('waiting');
  const list = useInfiniteQuery(unreadQuery(state));
  return (
    <Listing
      title="Unread files"
      things="unread files"
      sentence="Files of runs that were refused. Their bytes are kept as they came, because a destroyed wheel cannot be run again."
      list={list}
    >
      {(files) => (
        <>
          <Choice legend="Those" options={STATES} chosen={state} onChoose={setState} />
          {files.length === 0 ? (
            <p className="nothing">None is {STATES.find(({ value }) => value === state)?.word}.</p>
          ) : (
            <ol className="unread">
              {files.map((file) => (
                <li key={file.id}>
                  <UnreadItem file={file} />
                </li>
              ))}
            </ol>
          )}
        </>
      )}
    </Listing>
  );
}

function UnreadItem({ file }: { file: UnreadAnswer }) {
  const { data: people = [] } = useQuery(peopleQuery);
  const { data: lab } = useQuery(labQuery);
  const { parts, problems, problemCount, state } = file;
  return (
    <article>
      <h2>
        Unread file {file.number}: <bdi>{parts.map(({ name }) => name).join(', ')}</bdi>
      </h2>
      <p className="quiet">
        Sent by <Who people={people} person={file.sentBy} />, {moment(file.sentAt, lab?.zone ?? 'UTC')};{' '}
        {parts.map(({ size }) => `${printFixed(size, 0)} bytes`).join(', ')}.
      </p>
      <ProblemTable problems={problems.slice(0, 5)} />
      {problemCount > 5 && <p className="quiet">The first 5 of {problemCount} problems.</p>}
      <Fold word="Digests">
        {parts.map(({ name, sha256 }) => (
          <p key={sha256}>
            <bdi>{name}</bdi>: <code>{sha256}</code>
          </p>
        ))}
      </Fold>
      {state === 'waiting' ? (
        <WhatToDo file={file} />
      ) : (
        <p>
          {state === 'read' ? `Read later as run ${file.run}` : 'Discarded'}
          {file.closedBy !== undefined && (
            <>
              {' '}
              by <Who people={people} person={file.closedBy} />
            </>
          )}
          .{file.reason !== undefined && ` Reason: ${file.reason}`}
        </p>
      )}
    </article>
  );
}

function WhatToDo({ file }: { file: UnreadAnswer }) {
  const { person, duties } = useMe();
  const own = file.sentBy === person;
  return (
    <div className="to-do">
      {duties.includes('record') && (
        <p>
          <Link className="action" to={logUnreadAddress(file.id)}>
            Read it again for a run
          </Link>
        </p>
      )}
      {(duties.includes('record') || duties.includes('define')) && <ForWhichRig unread={file.id} />}
      {(duties.includes('record') || duties.includes('review')) &&
        (own ? <p className="quiet">You sent it, so somebody else may discard it.</p> : <Discard file={file} />)}
    </div>
  );
}

/** A file does not say which rig it is of before it can be read; whoever knows it chooses. */
function ForWhichRig({ unread }: { unread: string }) {
  const { data: rigs = [] } = useQuery(rigsQuery);
  if (rigs.length === 0) return null;
  return (
    <Fold word="Make a layout for it">
      <ul className="notes">
        {rigs.map(({ key, content: { name } }) => (
          <li key={key}>
            <Link to={layoutAddress(key, unread)}>
              for rig {key}, {name}
            </Link>
          </li>
        ))}
      </ul>
    </Fold>
  );
}

function Discard({ file }: { file: UnreadAnswer }) {
  const [reason, setReason] = useState('');
  const discard = useSent({
    send: () => send('POST /api/unread/{id}/discard', { path: { id: file.id }, body: { reason: reason.trim() } }),
    renews: ['unread'],
  });
  return (
    <Fold word="Discard it">
      <AgainForm
        sent={discard}
        button={`Discard unread file ${file.number}`}
        whole={Line.safeParse(reason.trim()).success}
      >
        <Field
          label="Why it is not needed"
          value={reason}
          onChange={({ target }) => setReason(target.value)}
          hint="After this it is read by nobody any more. Its bytes, the reason and your name stay on record."
          required
        />
      </AgainForm>
    </Fold>
  );
}
