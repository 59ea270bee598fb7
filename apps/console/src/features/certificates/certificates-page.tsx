import { useInfiniteQuery } from '@tanstack/react-query';
import { certificatesQuery } from '../../client/document-queries.js';
import { Listing } from '../../parts/listing.js';
import { CertificatesTable } from './certificates-table.js';

/** Every certificate of test that was issued, and how it stands. */
export function CertificatesPage() {
  return (
    <Listing
      title="Certificates"
      things="certificates"
      sentence="Certificates of test. Each is issued over a disposition, signed by the lab, and in force until it is superseded or withdrawn."
      list={useInfiniteQuery(certificatesQuery())}
    >
      {(certificates) => (
        <CertificatesTable
          certificates={certificates}
          empty="None was issued yet. One is issued where a lot is decided about, once its report is signed."
        />
      )}
    </Listing>
  );
}
