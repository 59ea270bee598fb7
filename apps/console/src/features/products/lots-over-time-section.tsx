import { useQuery } from '@tanstack/react-query';
import { Link } from 'react-router';
import { lotsOverTimeQuery } from '../../client/queries.js';
import { LotHistory } from '../../parts/figures/lab-figures.js';
import { Outcome } from '../../parts/marks/outcome.js';
import { day } from '../../parts/moment.js';
import { Section } from '../../parts/sheet/sheet.js';
import { Table } from '../../parts/table.js';
import { Trouble } from '../../parts/trouble.js';

/** How did the lots of the product do, one after the other? Left out until one is evaluated. */
export function LotsOverTimeSection({ product }: { product: string }) {
  const { data, error, refetch } = useQuery(lotsOverTimeQuery(product));
  if (error) return <Trouble error={error} onAgain={() => void refetch()} />;
  if (!data || data.lots.length === 0) return null;
  const { lots, older, figures } = data;
  return (
    <Section
      question="How did its lots do, one after the other?"
      word="Lots over time"
      aside={
        older > 0
          ? `The last ${lots.length} evaluated lots; ${older} older ${older === 1 ? 'one is' : 'ones are'} left out.`
          : 'Every evaluated lot, in the order in which they were made.'
      }
    >
      {figures.map(({ method, characteristic, history }) => (
        <LotHistory key={`${method} ${characteristic}`} of={history} />
      ))}
      <Table
        caption="Lots, the one made last first"
        columns={[
          { head: 'Lot', cell: ({ lot }) => <Link to={`/lots/${encodeURIComponent(lot)}`}>{lot}</Link> },
          { head: 'Made until', cell: ({ madeTo }) => <time dateTime={madeTo}>{day(madeTo)}</time> },
          { head: 'Outcome', cell: ({ outcome }) => <Outcome word={outcome} /> },
        ]}
        rows={lots.toReversed()}
        rowKey={({ lot }) => lot}
        empty="No lot of this product is evaluated yet."
      />
    </Section>
  );
}
