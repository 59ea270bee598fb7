import { queryOptions } from '@tanstack/react-query';
import type { CertificateRecord, DocumentInList, DocumentRecord, KeyList } from './answers.js';
import { listQuery } from './queries.js';
import { read } from './read.js';

/** Of one lot where it is named. */
export const documentsQuery = (lot?: string) =>
  listQuery<DocumentInList>(['documents', ...(lot === undefined ? [] : [lot])], `/api/documents${ofLot(lot)}`);

export const documentQuery = (n: string) =>
  queryOptions({
    queryKey: ['documents', 'one', n],
    queryFn: ({ signal }) => read<DocumentRecord>(`/api/documents/${encodeURIComponent(n)}`, signal),
  });

/** The file of a document, as it was kept. */
export const documentAddress = (n: number) => `/api/documents/${n}.pdf`;

/** Of one lot where it is named. */
export const certificatesQuery = (lot?: string) =>
  listQuery<CertificateRecord>(['certificates', ...(lot === undefined ? [] : [lot])], `/api/certificates${ofLot(lot)}`);

export const certificateQuery = (n: string) =>
  queryOptions({
    queryKey: ['certificates', 'one', n],
    queryFn: ({ signal }) => read<CertificateRecord>(`/api/certificates/${encodeURIComponent(n)}`, signal),
  });

export const signingKeysQuery = queryOptions({
  queryKey: ['signing keys'],
  queryFn: ({ signal }) => read<KeyList>('/api/signing-keys', signal),
});

function ofLot(lot: string | undefined): string {
  return lot === undefined ? '' : `?lot=${encodeURIComponent(lot)}`;
}
