import { printFixed } from '@breakbook/units';
import { useQuery } from '@tanstack/react-query';
import { Link } from 'react-router';
import type { DocumentInList } from '../../client/answers.js';
import { documentAddress } from '../../client/document-queries.js';
import { labQuery, peopleQuery } from '../../client/queries.js';
import { comparisonAddress, documentSheetAddress, lotAddress } from '../../parts/addresses.js';
import { moment } from '../../parts/moment.js';
import { type Column, Table } from '../../parts/table.js';
import { Who } from '../../parts/who.js';
import { signedInWords } from './signed-in-words.js';

interface DocumentsTableProps {
  documents: readonly DocumentInList[];
  empty: string;
  /** They are all of this lot, which is named above them. */
  ofLot?: string;
}

/** Documents, each with its sheet and its file. */
export function DocumentsTable({ documents, empty, ofLot }: DocumentsTableProps) {
  const { data: people = [] } = useQuery(peopleQuery);
  const { data: lab } = useQuery(labQuery);
  const lot: Column<DocumentInList> = {
    head: 'Of',
    cell: ({ lot: of, comparison }) => {
      if (comparison !== null) return <Link to={comparisonAddress(comparison)}>{comparison}</Link>;
      return of === null ? 'of no lot' : <Link to={lotAddress(of)}>{of}</Link>;
    },
  };
  return (
    <Table<DocumentInList>
      caption={ofLot === undefined ? 'Documents, newest first' : `Documents of lot ${ofLot}, newest first`}
      columns={[
        {
          head: 'No.',
          cell: ({ number }) => (
            <Link to={documentSheetAddress(number)} aria-label={`Document ${number}`}>
              {number}
            </Link>
          ),
        },
        { head: 'Kind', cell: ({ kind }) => kind },
        ...(ofLot === undefined ? [lot] : []),
        { head: 'Signed', wide: true, cell: signedInWords },
        { head: 'Made', cell: ({ at }) => <span className="whole">{moment(at, lab?.zone ?? 'UTC')}</span> },
        { head: 'By', wide: true, cell: ({ by }) => <Who people={people} person={by} /> },
        {
          head: 'File',
          cell: ({ number }) => (
            <a href={documentAddress(number)} download aria-label={`PDF of document ${number}`}>
              PDF
            </a>
          ),
        },
        { head: 'Bytes', number: true, cell: ({ size }) => printFixed(size, 0) },
      ]}
      rows={documents}
      rowKey={({ number }) => String(number)}
      empty={empty}
    />
  );
}
