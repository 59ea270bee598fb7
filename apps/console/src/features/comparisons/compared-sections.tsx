import { useQuery } from '@tanstack/react-query';
import { Link } from 'react-router';
import { comparisonsOfQuery, referencesOfQuery } from '../../client/comparison-queries.js';
import { chooseReferenceAddress, declareComparisonAddress } from '../../parts/addresses.js';
import { Section } from '../../parts/sheet/sheet.js';
import { useMe } from '../people/me.js';
import { ReferencesTable } from '../references/references-table.js';
import { ComparisonsTable } from './comparisons-table.js';

/** What a product is compared with, and what was compared with it. */
export function ComparedSection({ product, zone }: { product: string; zone: string }) {
  const { duties } = useMe();
  const { data: references } = useQuery(referencesOfQuery(product));
  const { data: comparisons } = useQuery(comparisonsOfQuery('product', product));
  if (!references || !comparisons) return null;
  return (
    <Section
      question="What is compared with what is known of it?"
      word="Comparisons"
      aside="A reference is a set of units of known making; items of unknown making are compared with it."
    >
      <ReferencesTable
        caption="References"
        references={references}
        zone={zone}
        ofProduct
        empty="No reference is chosen of it yet."
      />
      {comparisons.length > 0 && (
        <ComparisonsTable caption="Comparisons" comparisons={comparisons} zone={zone} ofProduct empty="" />
      )}
      {duties.includes('define') && (
        <p>
          <Link to={chooseReferenceAddress(product)}>Choose a reference</Link>, or{' '}
          <Link to={declareComparisonAddress({ product })}>declare a comparison</Link>.
        </p>
      )}
    </Section>
  );
}

/** The comparisons in which a specimen is an item; nothing where there is none. */
export function ComparisonsOfItem({ specimen, zone }: { specimen: string; zone: string }) {
  const { data } = useQuery(comparisonsOfQuery('specimen', specimen));
  if (!data || data.length === 0) return null;
  return (
    <Section question="With what is it compared?" word="Comparisons">
      <ComparisonsTable caption="Comparisons of which it is an item" comparisons={data} zone={zone} empty="" />
    </Section>
  );
}
