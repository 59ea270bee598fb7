import { printFixed } from '@breakbook/units';
import { useInfiniteQuery, useQuery } from '@tanstack/react-query';
import { Link } from 'react-router';
import { type DocumentInList } from '../../client/answers.js';
import { documentAddress, documentsQuery, labQuery, peopleQuery } from '../../client/queries.js';
import { lotAddress } from '../../parts/addresses.js';
import { Listing } from '../../parts/listing.js';
import { moment } from '../../parts/moment.js';
import { Table } from '../../parts/table.js';
import { Who } from '../../parts/who.js';

/** Every document that was made, as it was kept: the same bytes for whoever opens it. */
export function DocumentsPage() {
  const list = useInfiniteQuery(documentsQuery);
  const { data: people = [] } = useQuery(peopleQuery);
  const { data: lab } = useQuery(labQuery);
  return (
    <Listing
      title="Documents"
      things="documents"
      sentence="Papers made of evaluations. Each is kept as it was made and never changes."
      list={list}
      actions={
        <Link className="action" to="/documents/check">
          Check a document
        </Link>
      }
    >
      {(documents) => (
        <Table<DocumentInList>
          caption="Documents, newest first"
          columns={[
            {
              head: 'Document',
              cell: ({ number }) => (
                <a href={documentAddress(number)} target="_blank" rel="noreferrer">
                  {number} (PDF)
                </a>
              ),
            },
            { head: 'Kind', cell: ({ kind }) => kind },
            { head: 'Lot', cell: ({ lot }) => (lot === null ? 'of no lot' : <Link to={lotAddress(lot)}>{lot}</Link>) },
            {
              head: 'Evaluation',
              number: true,
              cell: ({ evaluation }) => (evaluation === null ? 'none' : String(evaluation)),
            },
            { head: 'Made', cell: ({ at }) => <span className="whole">{moment(at, lab?.zone ?? 'UTC')}</span> },
            { head: 'By', wide: true, cell: ({ by }) => <Who people={people} person={by} /> },
            { head: 'Bytes', number: true, cell: ({ size }) => printFixed(size, 0) },
            { head: 'SHA-256', wide: true, cell: ({ sha256 }) => <code>{sha256}</code> },
          ]}
          rows={documents}
          rowKey={({ number }) => String(number)}
          empty="No document was made yet. A report is made on the sheet of a lot, once the lot is evaluated."
        />
      )}
    </Listing>
  );
}
