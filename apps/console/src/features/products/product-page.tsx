import { useQuery } from '@tanstack/react-query';
import { useParams } from 'react-router';
import type { ProductRecord } from '../../client/answers.js';
import { labQuery, productQuery } from '../../client/queries.js';
import { HeadStrip, Sheet } from '../../parts/sheet/sheet.js';
import { Reading, Trouble } from '../../parts/trouble.js';
import { usePrint } from '../../parts/units/reader.js';
import { ComparedSection } from '../comparisons/compared-sections.js';
import { OldResultsSection } from '../old-results/old-results-section.js';
import { LotsOverTimeSection } from './lots-over-time-section.js';

/** One product: what it is, how its lots did, and what tables of earlier days tell of it. */
export function ProductPage() {
  const { product = '' } = useParams();
  const { data, error, refetch } = useQuery(productQuery(product));
  return (
    <Sheet title={`Product ${product}`}>
      {data ? (
        <ProductSheet of={data} />
      ) : error ? (
        <Trouble error={error} onAgain={() => void refetch()} />
      ) : (
        <Reading what={`product ${product}`} />
      )}
    </Sheet>
  );
}

function ProductSheet({ of: { key, content } }: { of: ProductRecord }) {
  const print = usePrint();
  const { data: lab } = useQuery(labQuery);
  const { name, description, beadStyle, brakeKind, markedMaximum, innerWidth } = content;
  const quantity = ({ value, unit }: { value: number; unit: string }) => print.declared(value, unit);
  return (
    <>
      <HeadStrip
        noun="Product"
        name={key}
        of={<bdi>{name}</bdi>}
        sentence={<bdi>{description}</bdi>}
        facts={[
          { term: 'Bead', says: beadStyle },
          { term: 'Brake', says: brakeKind },
          { term: 'Marked pressure, gauge', says: quantity(markedMaximum) },
          ...(innerWidth ? [{ term: 'Inner width', says: quantity(innerWidth) }] : []),
        ]}
      />
      <LotsOverTimeSection product={key} />
      <ComparedSection product={key} zone={lab?.zone ?? 'UTC'} />
      <OldResultsSection of="products" named={key} />
    </>
  );
}
