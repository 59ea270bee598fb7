import { useInfiniteQuery } from '@tanstack/react-query';
import { Link } from 'react-router';
import { certificatesQuery, documentsQuery } from '../../client/document-queries.js';
import { FormProblem } from '../../parts/field.js';
import { Section } from '../../parts/sheet/sheet.js';
import { CertificatesTable } from '../certificates/certificates-table.js';
import { DocumentsTable } from './documents-table.js';

/** The papers of a lot: its certificates, and every document that was made of it. */
export function DocumentsOfLot({ lot }: { lot: string }) {
  const { data, error, hasNextPage } = useInfiniteQuery(documentsQuery(lot));
  const { data: ofCertificates } = useInfiniteQuery(certificatesQuery(lot));
  const certificates = ofCertificates?.pages.flatMap(({ items }) => items) ?? [];
  return (
    <Section question="Which documents are there of it?" word="Documents">
      {certificates.length > 0 && (
        <CertificatesTable certificates={certificates} ofLot={lot} empty="No certificate was issued." />
      )}
      {data && (
        <DocumentsTable
          documents={data.pages.flatMap(({ items }) => items)}
          ofLot={lot}
          empty="None was made yet. A report is made from the head of this sheet."
        />
      )}
      {hasNextPage && (
        <p>
          <Link to={`/documents?lot=${encodeURIComponent(lot)}`}>All documents of lot {lot}</Link>
        </p>
      )}
      <FormProblem error={error} />
    </Section>
  );
}
