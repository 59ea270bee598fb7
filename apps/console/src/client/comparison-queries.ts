import { queryOptions } from '@tanstack/react-query';
import type {
  CodeLists,
  ComparisonInList,
  ComparisonRecord,
  ComparisonResultRecord,
  CustodyRecord,
  LotInList,
  ObservationRecord,
  PhotoRecord,
  ProtectedNotes,
  ReferenceRecord,
  ReferenceVersion,
} from './answers.js';
import { ProblemAnswer } from './problem-answer.js';
import { everyOne, listQuery } from './queries.js';
import { read } from './read.js';

const code = encodeURIComponent;

export const referencesQuery = listQuery<ReferenceRecord>(['references'], '/api/references');

export const everyReferenceQuery = queryOptions({
  queryKey: ['references', 'every one'],
  queryFn: ({ signal }) => everyOne<ReferenceRecord>('/api/references', signal),
});

export const referencesOfQuery = (product: string) =>
  queryOptions({
    queryKey: ['references', 'of', product],
    queryFn: ({ signal }) => everyOne<ReferenceRecord>(`/api/references?product=${code(product)}`, signal),
  });

export const referenceQuery = (reference: string) =>
  queryOptions({
    queryKey: ['references', 'one', reference],
    queryFn: ({ signal }) => read<ReferenceRecord>(`/api/references/${code(reference)}`, signal),
  });

/** Every revision of a reference, the first one first. */
export const referenceRevisionsQuery = (reference: string) =>
  queryOptions({
    queryKey: ['references', 'one', reference, 'revisions'],
    queryFn: ({ signal }) => everyOne<ReferenceVersion>(`/api/references/${code(reference)}/revisions`, signal),
  });

export const comparisonsQuery = listQuery<ComparisonInList>(['comparisons'], '/api/comparisons');

/** Of a product, or with a specimen as an item. */
export const comparisonsOfQuery = (of: 'product' | 'specimen', key: string) =>
  queryOptions({
    queryKey: ['comparisons', of, key],
    queryFn: ({ signal }) => everyOne<ComparisonInList>(`/api/comparisons?${of}=${code(key)}`, signal),
  });

export const comparisonQuery = (comparison: string) =>
  queryOptions({
    queryKey: ['comparisons', 'one', comparison],
    queryFn: ({ signal }) => read<ComparisonRecord>(`/api/comparisons/${code(comparison)}`, signal),
  });

/** By its number; a result never changes, but what it rests on may. */
export const comparisonResultQuery = (comparison: string, n: number) =>
  queryOptions({
    queryKey: ['comparisons', 'one', comparison, 'result', n],
    queryFn: ({ signal }) => read<ComparisonResultRecord>(`/api/comparisons/${code(comparison)}/results/${n}`, signal),
  });

export const observationsQuery = (comparison: string) =>
  queryOptions({
    queryKey: ['comparisons', 'one', comparison, 'observations'],
    queryFn: ({ signal }) => everyOne<ObservationRecord>(`/api/comparisons/${code(comparison)}/observations`, signal),
  });

/** For whoever keeps the list, and for everybody once conclusions are locked. */
export const codesQuery = (comparison: string) =>
  queryOptions({
    queryKey: ['comparisons', 'one', comparison, 'codes'],
    queryFn: ({ signal }) => read<CodeLists>(`/api/comparisons/${code(comparison)}/codes`, signal),
  });

export const custodyQuery = (specimen: string) =>
  queryOptions({
    queryKey: ['specimen', specimen, 'custody'],
    queryFn: ({ signal }) => read<CustodyRecord>(`/api/specimens/${code(specimen)}/custody`, signal),
  });

/** Null where none names whoever asks; whether there are others is not told. */
export const protectedNotesQuery = (specimen: string) =>
  queryOptions({
    queryKey: ['specimen', specimen, 'protected notes'],
    queryFn: ({ signal }): Promise<ProtectedNotes | null> =>
      read<ProtectedNotes>(`/api/specimens/${code(specimen)}/protected-notes`, signal).catch((error: unknown) => {
        if (error instanceof ProblemAnswer && error.status === 404) return null;
        throw error;
      }),
  });

export const photosOfSpecimenQuery = (specimen: string) =>
  queryOptions({
    queryKey: ['specimen', specimen, 'photos'],
    queryFn: ({ signal }) => everyOne<PhotoRecord>(`/api/attachments?specimen=${code(specimen)}`, signal),
  });

export const lotsOfProductQuery = (product: string) =>
  queryOptions({
    queryKey: ['lots', 'of', product],
    queryFn: ({ signal }) => everyOne<LotInList>(`/api/lots?product=${code(product)}`, signal),
  });
