import { useInfiniteQuery, useQuery } from '@tanstack/react-query';
import { Link } from 'react-router';
import { referencesQuery } from '../../client/comparison-queries.js';
import { labQuery } from '../../client/queries.js';
import { chooseReferenceAddress } from '../../parts/addresses.js';
import { Listing } from '../../parts/listing.js';
import { useMe } from '../people/me.js';
import { ReferencesTable } from './references-table.js';

/** Sets of specimens of known making, with which others are compared. */
export function ReferencesPage() {
  const { duties } = useMe();
  const { data: lab } = useQuery(labQuery);
  return (
    <Listing
      title="References"
      things="references"
      sentence="Specimens of known making, chosen before anything is known of what is compared with them, and frozen at that instant."
      list={useInfiniteQuery(referencesQuery)}
      actions={
        <>
          {duties.includes('define') && (
            <Link className="action main" to={chooseReferenceAddress()}>
              Choose a reference
            </Link>
          )}
          <Link className="action" to="/comparisons">
            Comparisons
          </Link>
        </>
      }
    >
      {(references) => (
        <ReferencesTable
          caption="References, the newest first"
          references={references}
          zone={lab?.zone ?? 'UTC'}
          empty="None is chosen yet. Somebody with the duty to define chooses specimens of several lots of a product."
        />
      )}
    </Listing>
  );
}
