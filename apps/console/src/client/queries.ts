import { QueryClient, queryOptions, useQuery } from '@tanstack/react-query';
import { type LotAnswer, type LotsAnswer, type RunAnswer } from './answers.js';
import { ProblemAnswer } from './problem-answer.js';
import { read } from './read.js';

/** What was refused is refused again; only a service that is away or overloaded is worth another try. */
export function newQueryClient(): QueryClient {
  return new QueryClient({
    defaultOptions: {
      queries: {
        staleTime: 10_000,
        retry: (failures, error) => failures < 2 && error instanceof ProblemAnswer && error.status >= 500,
      },
    },
  });
}

export const lotsQuery = queryOptions({
  queryKey: ['lots'],
  queryFn: ({ signal }) => read<LotsAnswer>('/api/lots', signal),
});

export const lotQuery = (lot: string) =>
  queryOptions({
    queryKey: ['lots', lot],
    queryFn: ({ signal }) => read<LotAnswer>(`/api/lots/${encodeURIComponent(lot)}`, signal),
  });

export const runQuery = (lot: string, run: string) =>
  queryOptions({
    queryKey: ['lots', lot, 'runs', run],
    queryFn: ({ signal }) =>
      read<RunAnswer>(`/api/lots/${encodeURIComponent(lot)}/runs/${encodeURIComponent(run)}`, signal),
  });

export const reportAddress = (lot: string) => `/api/lots/${encodeURIComponent(lot)}/report.pdf`;

export const useLots = () => useQuery(lotsQuery);
export const useLot = (lot: string) => useQuery(lotQuery(lot));
export const useRun = (lot: string, run: string) => useQuery(runQuery(lot, run));
