import { useQuery } from '@tanstack/react-query';
import { Link } from 'react-router';
import type { RigRecord } from '../../client/answers.js';
import { rigsQuery } from '../../client/queries.js';
import { rigAddress } from '../../parts/addresses.js';
import { HeadStrip, Sheet } from '../../parts/sheet/sheet.js';
import { Table } from '../../parts/table.js';
import { Reading, Trouble } from '../../parts/trouble.js';
import { usePrint } from '../../parts/units/reader.js';

/** What breaks specimens, and where it stands. */
export function RigsPage() {
  const { data: rigs, error, refetch } = useQuery(rigsQuery);
  const { declared } = usePrint();
  return (
    <Sheet title="Rigs">
      {rigs ? (
        <>
          <HeadStrip noun="" name="Rigs" of={`${rigs.length} in all`} />
          <div className="listing">
            <Table<RigRecord>
              caption="Rigs of the lab"
              columns={[
                { head: 'Rig', cell: ({ key }) => <Link to={rigAddress(key)}>{key}</Link> },
                { head: 'Name', cell: ({ content: { name } }) => name },
                { head: 'Stands in', cell: ({ content: { location } }) => location },
                {
                  head: 'Stops by itself at',
                  number: true,
                  cell: ({ content: { rigLimit } }) =>
                    rigLimit ? declared(rigLimit.value, rigLimit.unit) : 'not stated',
                },
              ]}
              rows={rigs}
              rowKey={({ key }) => key}
              empty="No rig is entered yet."
            />
          </div>
        </>
      ) : error ? (
        <Trouble error={error} onAgain={() => void refetch()} />
      ) : (
        <Reading what="the list of rigs" />
      )}
    </Sheet>
  );
}
