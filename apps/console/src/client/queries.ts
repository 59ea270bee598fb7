import {
  infiniteQueryOptions,
  QueryCache,
  QueryClient,
  queryOptions,
  useInfiniteQuery,
  useQuery,
} from '@tanstack/react-query';
import { type LotAnswer, type LotInList, type Myself, type PageOf, type RunAnswer } from './answers.js';
import { ProblemAnswer } from './problem-answer.js';
import { isSignedOut, read } from './read.js';

/**
 * What was refused is refused again; only a service that is away or overloaded is worth another try. Wherever an answer
 * says that nobody is signed in, the whole console knows it.
 */
export function newQueryClient(): QueryClient {
  const queries = new QueryClient({
    queryCache: new QueryCache({
      onError: (error) => {
        if (isSignedOut(error)) seatTaken(queries, null);
      },
    }),
    defaultOptions: {
      queries: {
        staleTime: 10_000,
        retry: (failures, error) => failures < 2 && error instanceof ProblemAnswer && error.status >= 500,
      },
    },
  });
  return queries;
}

/** Who is signed in; null when nobody is. */
export const meQuery = queryOptions({
  queryKey: ['me'],
  queryFn: ({ signal }): Promise<Myself | null> =>
    read<Myself>('/api/me', signal).catch((error: unknown) => {
      if (isSignedOut(error)) return null;
      throw error;
    }),
});

/** Somebody else sits here now, or nobody: what the one before was shown must not be shown again. */
export function seatTaken(queries: QueryClient, by: Myself | null): void {
  queries.removeQueries({ predicate: ({ queryKey }) => queryKey[0] !== meQuery.queryKey[0] });
  queries.setQueryData(meQuery.queryKey, by);
}

/** The lots, newest first, a piece at a time. */
export const lotsQuery = infiniteQueryOptions({
  queryKey: ['lots'],
  queryFn: ({ pageParam, signal }) => {
    const place = pageParam === null ? '' : `&after=${encodeURIComponent(pageParam)}`;
    return read<PageOf<LotInList>>(`/api/lots?order=newest&limit=50${place}`, signal);
  },
  initialPageParam: null as string | null,
  getNextPageParam: ({ next }) => next,
});

export const lotQuery = (lot: string) =>
  queryOptions({
    queryKey: ['lot', lot],
    queryFn: ({ signal }) => read<LotAnswer>(`/api/lots/${encodeURIComponent(lot)}/sheet`, signal),
  });

export const runQuery = (lot: string, run: string) =>
  queryOptions({
    queryKey: ['lot', lot, 'runs', run],
    queryFn: ({ signal }) =>
      read<RunAnswer>(`/api/lots/${encodeURIComponent(lot)}/runs/${encodeURIComponent(run)}`, signal),
  });

export const reportAddress = (lot: string) => `/api/lots/${encodeURIComponent(lot)}/report.pdf`;

export const useLots = () => useInfiniteQuery(lotsQuery);
export const useLot = (lot: string) => useQuery(lotQuery(lot));
export const useRun = (lot: string, run: string) => useQuery(runQuery(lot, run));
