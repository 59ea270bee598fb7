import { Line, OLD_RESULT_MARK, OLD_RESULTS_COUNT_NOWHERE } from '@breakbook/lab';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { useParams } from 'react-router';
import type { OldTable } from '../../client/answers.js';
import { labQuery, oldTableFileAddress, oldTableQuery, peopleQuery } from '../../client/queries.js';
import { send } from '../../client/send.js';
import { useSent } from '../../client/use-sent.js';
import { Field } from '../../parts/field.js';
import { moment } from '../../parts/moment.js';
import { Fold, HeadStrip, Section, Sheet } from '../../parts/sheet/sheet.js';
import { Reading, Trouble } from '../../parts/trouble.js';
import { Who } from '../../parts/who.js';
import { AgainForm } from '../people/again-form.js';
import { useMe } from '../people/me.js';
import { ResultsTable } from './results-table.js';

/** One table of old results: where it comes from, what it tells, and whether it still stands. */
export function OldTablePage() {
  const { table = '' } = useParams();
  const { data, error, refetch } = useQuery(oldTableQuery(table));
  return (
    <Sheet title={`Old results, table ${table}`}>
      {data ? (
        <TableSheet of={data} />
      ) : error ? (
        <Trouble error={error} onAgain={() => void refetch()} />
      ) : (
        <Reading what={`table ${table}`} />
      )}
    </Sheet>
  );
}

function TableSheet({ of }: { of: OldTable }) {
  const { number, name, note, rows, bytes, sha256, at, by, flags, withdrawn, results } = of;
  const { data: people = [] } = useQuery(peopleQuery);
  const { data: lab } = useQuery(labQuery);
  const { duties, person } = useMe();
  const zone = lab?.zone ?? 'UTC';
  const may = (duties.includes('define') || duties.includes('review')) && person !== by && !withdrawn;
  return (
    <>
      <HeadStrip
        noun="Old results, table"
        name={String(number)}
        of={<bdi>{name}</bdi>}
        sentence={
          withdrawn ? (
            <>
              It was withdrawn on {moment(withdrawn.at, zone)} by <Who people={people} person={withdrawn.by} />:{' '}
              <bdi>{withdrawn.reason}</bdi>
            </>
          ) : (
            `Each of its ${rows} results is ${OLD_RESULT_MARK}. ${OLD_RESULTS_COUNT_NOWHERE}`
          )
        }
        facts={[
          { term: 'Where it comes from', says: <bdi>{note}</bdi> },
          {
            term: 'Taken over',
            says: (
              <>
                {moment(at, zone)}, by <Who people={people} person={by} />
              </>
            ),
          },
          {
            term: 'The table itself',
            says: (
              <>
                <a href={oldTableFileAddress(number)} download>
                  {bytes} bytes
                </a>
                , SHA-256 <code>{sha256}</code>
              </>
            ),
          },
        ]}
      />
      <Section question="What does it tell?" word="Results">
        <ResultsTable caption="Results, line by line" results={results} />
        {flags.map(({ detail, action }) => (
          <p key={detail}>
            {detail} {action}
          </p>
        ))}
      </Section>
      {may && <Withdraw table={number} />}
    </>
  );
}

function Withdraw({ table }: { table: number }) {
  const [reason, setReason] = useState('');
  const withdraw = useSent({
    send: () =>
      send('POST /api/old-results/{table}/withdrawal', {
        path: { table: String(table) },
        body: { reason: reason.trim() },
      }),
    renews: ['old results'],
    onTaken: () => setReason(''),
  });
  return (
    <Fold word="Withdraw it">
      <AgainForm sent={withdraw} button={`Withdraw table ${table}`} whole={Line.safeParse(reason.trim()).success}>
        <p>After that its results are shown beside no lot and no product. The table stays readable.</p>
        <Field label="Reason" value={reason} onChange={({ target }) => setReason(target.value)} required />
      </AgainForm>
    </Fold>
  );
}
