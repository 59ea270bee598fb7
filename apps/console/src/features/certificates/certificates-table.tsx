import { useQuery } from '@tanstack/react-query';
import { Link } from 'react-router';
import type { CertificateRecord } from '../../client/answers.js';
import { labQuery, peopleQuery } from '../../client/queries.js';
import { certificateAddress, lotAddress } from '../../parts/addresses.js';
import { Outcome } from '../../parts/marks/outcome.js';
import { moment } from '../../parts/moment.js';
import { type Column, Table } from '../../parts/table.js';
import { Who } from '../../parts/who.js';

interface CertificatesTableProps {
  certificates: readonly CertificateRecord[];
  empty: string;
  /** They are all of this lot, which is named above them. */
  ofLot?: string;
}

/** Certificates of test, and how each stands. */
export function CertificatesTable({ certificates, empty, ofLot }: CertificatesTableProps) {
  const { data: people = [] } = useQuery(peopleQuery);
  const { data: lab } = useQuery(labQuery);
  const zone = lab?.zone ?? 'UTC';
  const lot: Column<CertificateRecord> = {
    head: 'Lot',
    cell: (one) => <Link to={lotAddress(one.lot)}>{one.lot}</Link>,
  };
  return (
    <Table<CertificateRecord>
      caption={
        ofLot === undefined
          ? 'Certificates of test, newest first'
          : `Certificates of test of lot ${ofLot}, newest first`
      }
      columns={[
        {
          head: 'Certificate',
          cell: ({ number, certificate }) => (
            <Link className="whole" to={certificateAddress(number)}>
              {certificate}
            </Link>
          ),
        },
        { head: 'Stands', cell: ({ state }) => <Outcome word={state} /> },
        ...(ofLot === undefined ? [lot] : []),
        {
          head: 'Since',
          cell: ({ history, issued }) => <span className="whole">{moment((history.at(-1) ?? issued).at, zone)}</span>,
        },
        { head: 'Issued by', wide: true, cell: ({ issued }) => <Who people={people} person={issued.by} /> },
        {
          head: 'Sent to',
          wide: true,
          cell: ({ sent }) => <bdi>{[...new Set(sent.map(({ recipient }) => recipient))].join('; ') || 'nobody'}</bdi>,
        },
      ]}
      rows={certificates}
      rowKey={({ number }) => String(number)}
      empty={empty}
    />
  );
}
