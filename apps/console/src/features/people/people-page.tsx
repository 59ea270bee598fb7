import type { Person } from '@breakbook/lab';
import { useQuery } from '@tanstack/react-query';
import { Link } from 'react-router';
import { peopleQuery } from '../../client/queries.js';
import { personAddress } from '../../parts/addresses.js';
import { HeadStrip, Sheet } from '../../parts/sheet/sheet.js';
import { Table } from '../../parts/table.js';
import { Reading, Trouble } from '../../parts/trouble.js';

/** Who works here, and what each may do. */
export function PeoplePage() {
  const { data, error, refetch } = useQuery(peopleQuery);
  return (
    <Sheet title="People">
      {data ? (
        <>
          <HeadStrip
            noun=""
            name="People"
            of={`${data.length} in all`}
            sentence="Duties open doors; a person's sheet says for which methods they are authorised, and until when."
          />
          <div className="listing">
            <Table<Person>
              caption="People of the lab"
              columns={[
                {
                  head: 'Name',
                  wide: true,
                  cell: ({ person, name }) => (
                    <Link to={personAddress(person)}>
                      <bdi>{name}</bdi>
                    </Link>
                  ),
                },
                { head: 'Signs in as', cell: ({ person }) => person },
                { head: 'Role', wide: true, cell: ({ role }) => <bdi>{role}</bdi> },
                {
                  head: 'Duties',
                  wide: true,
                  cell: ({ duties }) => (duties.length === 0 ? 'none' : duties.join(', ')),
                },
              ]}
              rows={data}
              rowKey={({ person }) => person}
              empty="Nobody is on record yet."
            />
          </div>
        </>
      ) : error ? (
        <Trouble error={error} onAgain={() => void refetch()} />
      ) : (
        <Reading what="the list of people" />
      )}
    </Sheet>
  );
}
