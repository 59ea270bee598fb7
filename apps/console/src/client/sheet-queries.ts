import { queryOptions } from '@tanstack/react-query';
import type { DocumentBatch, DocumentInList, PageOf } from './answers.js';
import { read } from './read.js';

/** Run sheets of a run, records of a specimen or reports of a comparison, the newest first. */
export const sheetsQuery = (of: 'run' | 'specimen' | 'comparison', name: string) =>
  queryOptions({
    queryKey: ['documents', of, name],
    queryFn: ({ signal }) =>
      read<PageOf<DocumentInList>>(`/api/documents?${of}=${encodeURIComponent(name)}&order=newest`, signal),
  });

/** Batches of documents of a lot, the newest first. */
export const batchesQuery = (lot: string) =>
  queryOptions({
    queryKey: ['lot', lot, 'document batches'],
    queryFn: ({ signal }) =>
      read<{ items: DocumentBatch[] }>(`/api/lots/${encodeURIComponent(lot)}/document-batches`, signal),
  });

/** The documents of a batch made so far, as one zip. */
export const batchAddress = (n: number) => `/api/document-batches/${n}/zip`;
