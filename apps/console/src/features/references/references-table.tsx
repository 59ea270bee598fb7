import { Link } from 'react-router';
import type { ReferenceRecord } from '../../client/answers.js';
import { productAddress, referenceAddress } from '../../parts/addresses.js';
import { day, moment } from '../../parts/moment.js';
import { type Column, Table } from '../../parts/table.js';

interface ReferencesTableProps {
  caption: string;
  references: readonly ReferenceRecord[];
  zone: string;
  empty: string;
  /** They are all of one product, which is named above them. */
  ofProduct?: boolean;
}

/** References, each in its last revision. */
export function ReferencesTable({ caption, references, zone, empty, ofProduct = false }: ReferencesTableProps) {
  const product: Column<ReferenceRecord> = {
    head: 'Product',
    cell: ({ content }) => <Link to={productAddress(content.product)}>{content.product}</Link>,
  };
  return (
    <Table<ReferenceRecord>
      caption={caption}
      columns={[
        { head: 'Reference', cell: ({ key }) => <Link to={referenceAddress(key)}>{key}</Link> },
        { head: 'What it is', wide: true, cell: ({ content }) => <bdi>{content.title}</bdi> },
        ...(ofProduct ? [] : [product]),
        { head: 'Units', number: true, cell: ({ content }) => content.units.length },
        { head: 'Lots', number: true, cell: ({ content }) => lotsIn(content.units).length },
        {
          head: 'Made',
          cell: ({ content }) => (
            <>
              <span className="whole">{day(content.madeFrom)}</span> to{' '}
              <span className="whole">{day(content.madeTo)}</span>
            </>
          ),
        },
        { head: 'Rev.', number: true, cell: ({ content }) => content.revision },
        { head: 'Frozen', cell: ({ content }) => <span className="whole">{moment(content.frozenAt, zone)}</span> },
      ]}
      rows={references}
      rowKey={({ key }) => key}
      empty={empty}
    />
  );
}

/** The lots that units come from, each once. */
export function lotsIn(units: readonly { lot: string }[]): string[] {
  return [...new Set(units.map(({ lot }) => lot))];
}
