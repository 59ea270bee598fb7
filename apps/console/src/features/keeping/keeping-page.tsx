import { useInfiniteQuery } from '@tanstack/react-query';
import { Link } from 'react-router';
import type { KeptSpecimen } from '../../client/answers.js';
import { keptQuery } from '../../client/queries.js';
import { lotAddress, specimenAddress } from '../../parts/addresses.js';
import { Listing } from '../../parts/listing.js';
import { Table } from '../../parts/table.js';
import { DisposalsSection } from './disposals-section.js';
import { LegalHoldsSection } from './legal-holds-section.js';
import { keptUntilInWords } from './obstacles.js';

/** What may be disposed of and when, what is on legal hold, and what was disposed of. */
export function KeepingPage() {
  return (
    <Listing
      title="Keeping"
      things="specimens"
      sentence="What may be disposed of, and when. Remnants go only when one person asked and another authorised it, and never on legal hold. Records are never deleted here."
      list={useInfiniteQuery(keptQuery)}
    >
      {(specimens) => (
        <>
          <Table<KeptSpecimen>
            caption="Specimens, the last received first"
            columns={[
              { head: 'Specimen', cell: ({ specimen }) => <Link to={specimenAddress(specimen)}>{specimen}</Link> },
              { head: 'Lot', cell: ({ lot }) => <Link to={lotAddress(lot)}>{lot}</Link> },
              { head: 'State', cell: ({ state }) => state },
              { head: 'Kept until', cell: (one) => keptUntilInWords(one) },
              {
                head: 'In the way',
                wide: true,
                cell: ({ state, obstacles }) =>
                  state === 'disposed'
                    ? 'disposed of'
                    : obstacles.length === 0
                      ? 'nothing: it may be disposed of'
                      : obstacles.map(({ what }) => what).join(' '),
              },
            ]}
            rows={specimens}
            rowKey={({ specimen }) => specimen}
            empty="No specimen was received yet."
          />
          <LegalHoldsSection />
          <DisposalsSection />
        </>
      )}
    </Listing>
  );
}
