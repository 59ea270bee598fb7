import { useInfiniteQuery, useQuery } from '@tanstack/react-query';
import { Link } from 'react-router';
import { comparisonsQuery } from '../../client/comparison-queries.js';
import { labQuery } from '../../client/queries.js';
import { declareComparisonAddress } from '../../parts/addresses.js';
import { Listing } from '../../parts/listing.js';
import { useMe } from '../people/me.js';
import { ComparisonsTable } from './comparisons-table.js';

/** What is compared with what. */
export function ComparisonsPage() {
  const { duties } = useMe();
  const { data: lab } = useQuery(labQuery);
  return (
    <Listing
      title="Comparisons"
      things="comparisons"
      sentence="Items of unknown making with a reference, or one group of lots with another: declared before testing. What is told is how well they agree, and never who made them."
      list={useInfiniteQuery(comparisonsQuery)}
      actions={
        <>
          {duties.includes('define') && (
            <Link className="action main" to={declareComparisonAddress()}>
              Declare a comparison
            </Link>
          )}
          <Link className="action" to="/references">
            References
          </Link>
        </>
      }
    >
      {(comparisons) => (
        <ComparisonsTable
          caption="Comparisons, the newest first"
          comparisons={comparisons}
          zone={lab?.zone ?? 'UTC'}
          empty="None is declared yet. First a reference is chosen, then what is compared with it is declared, then it is tested."
        />
      )}
    </Listing>
  );
}
