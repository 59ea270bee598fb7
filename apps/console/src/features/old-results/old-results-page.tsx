import { useInfiniteQuery, useQuery } from '@tanstack/react-query';
import { Link } from 'react-router';
import type { OldTableInList } from '../../client/answers.js';
import { labQuery, oldTablesQuery, peopleQuery } from '../../client/queries.js';
import { oldTableAddress } from '../../parts/addresses.js';
import { Listing } from '../../parts/listing.js';
import { moment } from '../../parts/moment.js';
import { Table } from '../../parts/table.js';
import { Who } from '../../parts/who.js';
import { useMe } from '../people/me.js';
import { TakeOver } from './take-over.js';

/** Tables of results of earlier days: those taken over, and the way to take over another. */
export function OldResultsPage() {
  const list = useInfiniteQuery(oldTablesQuery);
  const { data: people = [] } = useQuery(peopleQuery);
  const { data: lab } = useQuery(labQuery);
  const { duties } = useMe();
  return (
    <Listing
      title="Old results"
      things="tables"
      sentence="Results of earlier days, of which only a table is left. They are kept as told: no raw file stands behind them, nothing of them can be computed again, and no judgement counts them."
      list={list}
    >
      {(items) => (
        <>
          {(duties.includes('define') || duties.includes('record')) && <TakeOver />}
          <Table<OldTableInList>
            caption="Tables taken over, the newest first"
            columns={[
              { head: 'No.', cell: ({ number }) => <Link to={oldTableAddress(number)}>{number}</Link> },
              { head: 'Table', wide: true, cell: ({ name }) => <bdi>{name}</bdi> },
              { head: 'Where it comes from', wide: true, cell: ({ note }) => <bdi>{note}</bdi> },
              { head: 'Results', number: true, cell: ({ rows }) => rows },
              { head: 'Standing', cell: ({ withdrawn }) => (withdrawn ? 'withdrawn' : 'as told') },
              { head: 'By', wide: true, cell: ({ by }) => <Who people={people} person={by} /> },
              {
                head: 'At',
                cell: ({ at }) => <span className="whole">{moment(at, lab?.zone ?? 'UTC')}</span>,
              },
            ]}
            rows={items}
            rowKey={({ number }) => String(number)}
            empty="No table was taken over yet."
          />
        </>
      )}
    </Listing>
  );
}
