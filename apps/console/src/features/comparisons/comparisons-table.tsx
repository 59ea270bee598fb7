import { Link } from 'react-router';
import type { ComparisonInList } from '../../client/answers.js';
import { comparisonAddress, productAddress } from '../../parts/addresses.js';
import { moment } from '../../parts/moment.js';
import { type Column, Table } from '../../parts/table.js';

interface ComparisonsTableProps {
  caption: string;
  comparisons: readonly ComparisonInList[];
  zone: string;
  empty: string;
  /** They are all of one product, which is named above them. */
  ofProduct?: boolean;
}

/** Comparisons, each as it was declared last. */
export function ComparisonsTable({ caption, comparisons, zone, empty, ofProduct = false }: ComparisonsTableProps) {
  const product: Column<ComparisonInList> = {
    head: 'Product',
    cell: (one) => <Link to={productAddress(one.product)}>{one.product}</Link>,
  };
  return (
    <Table<ComparisonInList>
      caption={caption}
      columns={[
        { head: 'Comparison', cell: ({ comparison }) => <Link to={comparisonAddress(comparison)}>{comparison}</Link> },
        { head: 'What', wide: true, cell: ({ title }) => <bdi>{title}</bdi> },
        ...(ofProduct ? [] : [product]),
        { head: 'State', cell: ({ state }) => state },
        { head: 'Compared', cell: ({ items }) => itemsSaid(items) },
        {
          head: 'Declared',
          wide: true,
          cell: ({ revision, declaredAt, declaredAfterResults }) => (
            <>
              rev. {revision}, <span className="whole">{moment(declaredAt, zone)}</span>
              {declaredAfterResults && <span className="under">after results were there</span>}
            </>
          ),
        },
      ]}
      rows={comparisons}
      rowKey={({ comparison }) => comparison}
      empty={empty}
    />
  );
}

function itemsSaid(items: number | undefined): string {
  if (items === undefined) return 'two groups';
  return items === 1 ? '1 item' : `${items} items`;
}
