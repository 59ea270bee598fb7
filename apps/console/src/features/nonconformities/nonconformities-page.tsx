import { Line, Paragraph } from '@breakbook/lab';
import { useInfiniteQuery, useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { Link } from 'react-router';
import type { NonconformityRecord } from '../../client/answers.js';
import { labQuery, nonconformitiesQuery, peopleQuery } from '../../client/queries.js';
import { send } from '../../client/send.js';
import { useSent } from '../../client/use-sent.js';
import { nonconformityAddress } from '../../parts/addresses.js';
import { Choice } from '../../parts/choice.js';
import { Field, FormProblem, TextArea } from '../../parts/field.js';
import { Listing } from '../../parts/listing.js';
import { day, moment } from '../../parts/moment.js';
import { Fold } from '../../parts/sheet/sheet.js';
import { Table } from '../../parts/table.js';
import { Who } from '../../parts/who.js';
import { useMe } from '../people/me.js';
import { namesIn } from './names-in.js';

const STATES = [
  { value: 'open', word: 'open' },
  { value: 'closed', word: 'closed' },
  { value: 'any', word: 'all' },
] as const;

/** What does not meet a requirement, product or the lab's own work, and how it stands. */
export function NonconformitiesPage() {
  const [state, setState] = useState<NonconformityRecord['state'] | 'any'>('open');
  const { data: people = [] } = useQuery(peopleQuery);
  const { data: lab } = useQuery(labQuery);
  const list = useInfiniteQuery(nonconformitiesQuery(state));
  const { duties } = useMe();
  return (
    <Listing
      title="Nonconformities"
      things="nonconformities"
      sentence="What does not meet a requirement. A failed verdict or an error of the lab opens one by itself; anybody who works here opens others. No lot is decided about while one of its own is open."
      list={list}
    >
      {(items) => (
        <>
          <Choice legend="Those" options={STATES} chosen={state} onChoose={setState} />
          <Table
            caption="Nonconformities, the newest first"
            columns={[
              { head: 'No.', cell: ({ number }) => <Link to={nonconformityAddress(number)}>{number}</Link> },
              { head: 'What', wide: true, cell: ({ content }) => <bdi>{content.title}</bdi> },
              { head: 'Opened by', cell: ({ content }) => content.source },
              { head: 'Lots', cell: ({ concerns }) => concerns.join(', ') },
              { head: 'State', cell: (one) => one.state },
              { head: 'Due', cell: ({ content }) => (content.due === undefined ? 'not set' : day(content.due)) },
              {
                head: 'Opened',
                wide: true,
                cell: ({ openedBy, openedAt }) => (
                  <>
                    <span className="whole">{moment(openedAt, lab?.zone ?? 'UTC')}</span>,{' '}
                    <Who people={people} person={openedBy} />
                  </>
                ),
              },
            ]}
            rows={items}
            rowKey={({ number }) => `${number}`}
            empty={state === 'open' ? 'None is open.' : 'There is none.'}
          />
          {duties.length > 0 && <OpenOne />}
        </>
      )}
    </Listing>
  );
}

function OpenOne() {
  const [title, setTitle] = useState('');
  const [found, setFound] = useState('');
  const [lots, setLots] = useState('');
  const [runs, setRuns] = useState('');
  const [specimens, setSpecimens] = useState('');
  const open = useSent({
    send: () =>
      send('POST /api/nonconformities', {
        body: {
          title: title.trim(),
          found: found.trim(),
          lots: namesIn(lots),
          runs: namesIn(runs),
          specimens: namesIn(specimens),
        },
      }),
    renews: ['nonconformities', 'disposition'],
    onTaken: () => {
      for (const clear of [setTitle, setFound, setLots, setRuns, setSpecimens]) clear('');
    },
  });
  const whole =
    Line.safeParse(title.trim()).success &&
    Paragraph.safeParse(found.trim()).success &&
    namesIn(`${lots} ${runs} ${specimens}`).length > 0;
  return (
    <Fold word="Open a nonconformity">
      <form
        className="form"
        onSubmit={(event) => {
          event.preventDefault();
          open.mutate(undefined);
        }}
      >
        <Field label="What it is, in a line" value={title} onChange={({ target }) => setTitle(target.value)} required />
        <TextArea
          label="What was found"
          hint="What departs from what, and how it was noticed."
          rows={3}
          value={found}
          onChange={({ target }) => setFound(target.value)}
          required
        />
        <Field
          label="Lots it concerns"
          hint="By their names, with blanks between. At least a lot, a run or a specimen is named."
          value={lots}
          onChange={({ target }) => setLots(target.value)}
        />
        <Field label="Runs it concerns" value={runs} onChange={({ target }) => setRuns(target.value)} />
        <Field label="Specimens it concerns" value={specimens} onChange={({ target }) => setSpecimens(target.value)} />
        <FormProblem error={open.error} />
        <button type="submit" className="action" disabled={!whole || open.isPending}>
          Open it
        </button>
      </form>
    </Fold>
  );
}
