import type { Lab, Layout, Limit, Method, Person, Plan, PlanTemplate, Product } from '@breakbook/lab';
import {
  infiniteQueryOptions,
  QueryCache,
  QueryClient,
  queryOptions,
  useInfiniteQuery,
  useQuery,
} from '@tanstack/react-query';
import type {
  CalibrationRecord,
  ChannelOfRun,
  Checkpoint,
  CompetenceRecord,
  ConcessionRecord,
  DisposalRecord,
  EvaluationInList,
  Kept,
  KeptSpecimen,
  KeptVersion,
  LedgerEntry,
  LegalHoldRecord,
  LotAnswer,
  LotInList,
  LotKeepingRecord,
  LotPackage,
  LotRecord,
  LotsOverTime,
  Myself,
  NonconformityRecord,
  NonconformityVersion,
  OldResultBeside,
  OldTable,
  OldTableInList,
  OpinionRecord,
  OutsideIdentity,
  OwnSecondFactors,
  OwnSession,
  PageOf,
  PersonRecord,
  PhotoRecord,
  PlacementRecord,
  ProductRecord,
  ProposalAnswer,
  ProposalInList,
  RecomputationAnswer,
  RecomputationInList,
  RetestRecord,
  ReviewsOfRun,
  RigRecord,
  RunAnswer,
  RunInList,
  RunRecord,
  SafetyFlagRecord,
  SaidOfRun,
  SheetToSign,
  SpecimenKeepingRecord,
  SpecimenRecord,
  SpecimenStates,
  TouchedLot,
  UnreadAnswer,
  WaysOfSigningIn,
  WindowOfChannel,
} from './answers.js';
import { ProblemAnswer } from './problem-answer.js';
import { isAskedWho, isSignedOut, read } from './read.js';

/**
 * What was refused is refused again; only a service that is away or overloaded is worth another try. Wherever an answer
 * says that nobody is signed in, the whole console knows it.
 */
export function newQueryClient(): QueryClient {
  const queries = new QueryClient({
    queryCache: new QueryCache({
      onError: (error) => {
        if (isAskedWho(error)) void whoSitsHere(queries);
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

/**
 * An answer that was asked for while the session went on under a new secret says that nobody is signed in; so it is
 * looked who is. Where it is nobody, the whole console knows.
 */
async function whoSitsHere(queries: QueryClient): Promise<void> {
  const me = await queries.fetchQuery({ ...meQuery, staleTime: 0 }).catch(() => undefined);
  if (me === null) seatTaken(queries, null);
  else if (me?.secondFactor !== 'owed')
    await queries.refetchQueries({ predicate: ({ state }) => isAskedWho(state.error) });
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

/** How people sign in here. */
export const waysQuery = queryOptions({
  queryKey: ['ways'],
  queryFn: ({ signal }) => read<WaysOfSigningIn>('/api/sign-in/ways', signal),
});

/** What the person has beside the passphrase. */
export const secondFactorQuery = queryOptions({
  queryKey: ['my', 'second factor'],
  queryFn: ({ signal }) => read<OwnSecondFactors>('/api/me/second-factor', signal),
});

/** Where they are signed in. */
export const sessionsQuery = queryOptions({
  queryKey: ['my', 'sessions'],
  queryFn: ({ signal }) => read<{ items: OwnSession[] }>('/api/me/sessions', signal),
});

/** A list, newest first, a piece at a time. */
export function listQuery<T>(queryKey: readonly string[], path: string) {
  return infiniteQueryOptions({
    queryKey,
    queryFn: ({ pageParam, signal }) => {
      const place = pageParam === null ? '' : `&after=${encodeURIComponent(pageParam)}`;
      return read<PageOf<T>>(`${path}${path.includes('?') ? '&' : '?'}order=newest&limit=50${place}`, signal);
    },
    initialPageParam: null as string | null,
    getNextPageParam: ({ next }) => next,
  });
}

export const lotsQuery = listQuery<LotInList>(['lots'], '/api/lots');
export const specimensQuery = listQuery<SpecimenRecord>(['specimens'], '/api/specimens');
export const ledgerQuery = listQuery<LedgerEntry>(['ledger'], '/api/ledger');
export const nonconformitiesQuery = (state: NonconformityRecord['state'] | 'any') =>
  listQuery<NonconformityRecord>(['nonconformities', state], `/api/nonconformities?state=${state}`);
export const concessionsQuery = listQuery<ConcessionRecord>(['concessions'], '/api/concessions');
export const opinionsQuery = (of: 'lot' | 'run', key: string) =>
  listQuery<OpinionRecord>(['opinions', of, key], `/api/opinions?${of}=${code(key)}`);
export const safetyFlagsQuery = (state: SafetyFlagRecord['state'] | 'any') =>
  listQuery<SafetyFlagRecord>(['safety flags', state], `/api/safety-flags?state=${state}`);
export const flagsOfLotQuery = (lot: string) =>
  listQuery<SafetyFlagRecord>(['safety flags', 'lot', lot], `/api/safety-flags?state=any&lot=${code(lot)}`);
export const keptQuery = listQuery<KeptSpecimen>(['keeping'], '/api/keeping');
export const legalHoldsQuery = listQuery<LegalHoldRecord>(['legal holds'], '/api/legal-holds');
export const disposalsQuery = listQuery<DisposalRecord>(['disposals'], '/api/disposals');
export const unreadQuery = (state: UnreadAnswer['state'] | 'any') =>
  listQuery<UnreadAnswer>(['unread', state], `/api/unread?state=${state}`);

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

export const unreadFileQuery = (id: string) =>
  queryOptions({
    queryKey: ['unread', 'file', id],
    queryFn: ({ signal }) => read<UnreadAnswer>(`/api/unread/${encodeURIComponent(id)}`, signal),
  });

export const unreadPartAddress = (id: string, n: number) => `/api/unread/${encodeURIComponent(id)}/parts/${n}`;

/** Everything of a list that is short by its nature, in the order in which it was entered. */
export async function everyOne<T>(path: string, signal: AbortSignal): Promise<T[]> {
  const items: T[] = [];
  for (let after: string | null = ''; after !== null; ) {
    const place: string = after === '' ? '' : `&after=${encodeURIComponent(after)}`;
    const piece: PageOf<T> = await read(`${path}${path.includes('?') ? '&' : '?'}limit=200${place}`, signal);
    items.push(...piece.items);
    after = piece.next;
  }
  return items;
}

const code = encodeURIComponent;

export const runRecordQuery = (run: string) =>
  queryOptions({
    queryKey: ['run', run],
    queryFn: ({ signal }) => read<RunRecord>(`/api/runs/${code(run)}`, signal),
  });

export const channelsQuery = (run: string) =>
  queryOptions({
    queryKey: ['run', run, 'channels'],
    queryFn: ({ signal }) => read<{ items: ChannelOfRun[] }>(`/api/runs/${code(run)}/channels`, signal),
  });

/** Part of a channel, in seconds on the clock of its record. */
export const windowQuery = (run: string, asked: Pick<ChannelOfRun, 'channel' | 'passage' | 'from' | 'to'>) =>
  queryOptions({
    queryKey: ['run', run, 'channels', asked],
    queryFn: ({ signal }) => {
      const { channel, passage, from, to } = asked;
      const query = `from=${from}&to=${to}${passage === undefined ? '' : `&passage=${passage}`}`;
      return read<WindowOfChannel>(`/api/runs/${code(run)}/channels/${code(channel)}?${query}`, signal);
    },
  });

export const checkpointsQuery = queryOptions({
  queryKey: ['checkpoints'],
  queryFn: ({ signal }) => read<PageOf<Checkpoint>>('/api/ledger/checkpoints?order=newest&limit=1', signal),
});

export const recomputationsQuery = queryOptions({
  queryKey: ['recomputations'],
  queryFn: ({ signal }) => read<{ items: RecomputationInList[] }>('/api/recomputations', signal),
});

export const recomputationQuery = (number: number) =>
  queryOptions({
    queryKey: ['recomputations', number],
    queryFn: ({ signal }) => read<RecomputationAnswer>(`/api/recomputations/${number}`, signal),
  });

export const runsOfQuery = (of: 'lot' | 'specimen', key: string) =>
  queryOptions({
    queryKey: ['runs', of, key],
    queryFn: ({ signal }) => everyOne<RunInList>(`/api/runs?${of}=${code(key)}`, signal),
  });

export const photosQuery = (run: string) =>
  queryOptions({
    queryKey: ['run', run, 'photos'],
    queryFn: ({ signal }) => everyOne<PhotoRecord>(`/api/attachments?run=${code(run)}`, signal),
  });

/** A small copy, made by the service; the photo itself is at `photoAddress`. */
export const thumbnailAddress = (n: number) => `/api/attachments/${n}/thumbnail`;
export const photoAddress = (n: number) => `/api/attachments/${n}/photo`;
export const fileAddress = (n: number) => `/api/attachments/${n}/file`;

export const lotRecordQuery = (lot: string) =>
  queryOptions({
    queryKey: ['lot', lot, 'record'],
    queryFn: ({ signal }) => read<LotRecord>(`/api/lots/${code(lot)}`, signal),
  });

export const specimensOfQuery = (lot: string) =>
  queryOptions({
    queryKey: ['lot', lot, 'specimens'],
    queryFn: ({ signal }) => everyOne<SpecimenRecord>(`/api/specimens?lot=${code(lot)}`, signal),
  });

export const evaluationsQuery = (lot: string) =>
  queryOptions({
    queryKey: ['lot', lot, 'evaluations'],
    queryFn: ({ signal }) => read<{ items: EvaluationInList[] }>(`/api/lots/${code(lot)}/evaluations`, signal),
  });

export const specimenQuery = (specimen: string) =>
  queryOptions({
    queryKey: ['specimen', specimen],
    queryFn: ({ signal }) => read<SpecimenRecord>(`/api/specimens/${code(specimen)}`, signal),
  });

export const specimenStatesQuery = (specimen: string) =>
  queryOptions({
    queryKey: ['specimen', specimen, 'states'],
    queryFn: ({ signal }) => read<SpecimenStates>(`/api/specimens/${code(specimen)}/states`, signal),
  });

/** The specimens that a scanned or typed text names: by its code, or else by the serial on their labels. */
export const specimensCalledQuery = (text: string) =>
  queryOptions({
    queryKey: ['specimen', text, 'or serial'],
    queryFn: ({ signal }) => everyOne<SpecimenRecord>(`/api/specimens?called=${code(text)}`, signal),
  });

export const plansQuery = (product: string) =>
  queryOptions({
    queryKey: ['plans', product],
    queryFn: ({ signal }) => everyOne<Kept<Plan>>(`/api/plans?product=${code(product)}&standing=in+force`, signal),
  });

/** Every revision of a plan, those only proposed too. */
export const planRevisionsQuery = (plan: string) =>
  queryOptions({
    queryKey: ['plan', plan, 'revisions'],
    queryFn: ({ signal }) => everyOne<KeptVersion<Plan>>(`/api/plans/${code(plan)}/revisions`, signal),
  });

export const planQuery = (plan: string, revision: number) =>
  queryOptions({
    queryKey: ['plan', plan, revision],
    queryFn: ({ signal }) => read<KeptVersion<Plan>>(`/api/plans/${code(plan)}/revisions/${revision}`, signal),
  });

export const methodsQuery = queryOptions({
  queryKey: ['methods'],
  queryFn: ({ signal }) => everyOne<Kept<Method>>('/api/methods', signal),
});

export const methodQuery = (method: string, revision: number) =>
  queryOptions({
    queryKey: ['method', method, revision],
    queryFn: ({ signal }) => read<KeptVersion<Method>>(`/api/methods/${code(method)}/revisions/${revision}`, signal),
  });

export const methodsInForceQuery = queryOptions({
  queryKey: ['methods', 'in force'],
  queryFn: ({ signal }) => everyOne<Kept<Method>>('/api/methods?standing=in+force', signal),
});

export const limitsInForceQuery = queryOptions({
  queryKey: ['limits', 'in force'],
  queryFn: ({ signal }) => everyOne<Kept<Limit>>('/api/limits?standing=in+force', signal),
});

export const productsQuery = queryOptions({
  queryKey: ['products'],
  queryFn: ({ signal }) => everyOne<Kept<Product>>('/api/products', signal),
});

/** Drafts of plans for the tests of the lab, and what each asks for. */
export const templatesQuery = queryOptions({
  queryKey: ['planning', 'templates'],
  queryFn: async ({ signal }) => (await read<{ items: PlanTemplate[] }>('/api/planning/templates', signal)).items,
  staleTime: Number.POSITIVE_INFINITY,
});

export const rigsQuery = queryOptions({
  queryKey: ['rigs'],
  queryFn: ({ signal }) => everyOne<RigRecord>('/api/rigs', signal),
});

export const rigQuery = (rig: string) =>
  queryOptions({
    queryKey: ['rig', rig],
    queryFn: ({ signal }) => read<RigRecord>(`/api/rigs/${code(rig)}`, signal),
  });

export const placementsQuery = (rig: string) =>
  queryOptions({
    queryKey: ['rig', rig, 'placements'],
    queryFn: ({ signal }) => read<{ items: PlacementRecord[] }>(`/api/rigs/${code(rig)}/placements`, signal),
  });

export const calibrationsQuery = queryOptions({
  queryKey: ['calibrations'],
  queryFn: ({ signal }) => everyOne<CalibrationRecord>('/api/calibrations', signal),
});

export const layoutsQuery = queryOptions({
  queryKey: ['layouts'],
  queryFn: ({ signal }) => everyOne<Kept<Layout>>('/api/layouts', signal),
});

export const layoutsInForceQuery = queryOptions({
  queryKey: ['layouts', 'in force'],
  queryFn: ({ signal }) => everyOne<Kept<Layout>>('/api/layouts?standing=in+force', signal),
});

export const proposalsQuery = (state: 'waiting' | 'any') =>
  listQuery<ProposalInList>(['proposals', state], `/api/proposals?state=${state}`);

export const proposalQuery = (number: string) =>
  queryOptions({
    queryKey: ['proposals', 'one', number],
    queryFn: ({ signal }) => read<ProposalAnswer>(`/api/proposals/${code(number)}`, signal),
  });

export const peopleQuery = queryOptions({
  queryKey: ['people'],
  queryFn: async ({ signal }) => (await everyOne<Kept<Person>>('/api/people', signal)).map(({ content }) => content),
});

/** The lab somebody works in: its zone is that of every time shown. */
export const labQuery = queryOptions({
  queryKey: ['labs'],
  queryFn: async ({ signal }) => {
    const { items } = await read<{ items: KeptVersion<Lab>[] }>('/api/labs', signal);
    const [lab] = items;
    if (!lab) throw new Error('The service names no lab for whoever is signed in.');
    return lab.content;
  },
});

export const nonconformityQuery = (n: string) =>
  queryOptions({
    queryKey: ['nonconformity', n],
    queryFn: ({ signal }) => read<NonconformityRecord>(`/api/nonconformities/${code(n)}`, signal),
  });

export const nonconformityHistoryQuery = (n: string) =>
  queryOptions({
    queryKey: ['nonconformity', n, 'history'],
    queryFn: ({ signal }) => read<{ items: NonconformityVersion[] }>(`/api/nonconformities/${code(n)}/history`, signal),
  });

/** Never an old one: what is signed is what is shown. */
export const sheetToSignQuery = (lot: string) =>
  queryOptions({
    queryKey: ['disposition', lot],
    queryFn: ({ signal }) => read<SheetToSign>(`/api/lots/${code(lot)}/disposition`, signal),
    staleTime: 0,
  });

export const safetyFlagQuery = (n: string) =>
  queryOptions({
    queryKey: ['safety flags', 'one', n],
    queryFn: ({ signal }) => read<SafetyFlagRecord>(`/api/safety-flags/${code(n)}`, signal),
  });

export const safetyFlagHistoryQuery = (n: string) =>
  queryOptions({
    queryKey: ['safety flags', 'history', n],
    queryFn: ({ signal }) => read<{ items: SafetyFlagRecord[] }>(`/api/safety-flags/${code(n)}/history`, signal),
  });

export const touchedLotsQuery = (n: string) =>
  queryOptions({
    queryKey: ['safety flags', 'touched', n],
    queryFn: ({ signal }) => read<{ items: TouchedLot[] }>(`/api/safety-flags/${code(n)}/touched`, signal),
  });

export const lotKeepingQuery = (lot: string) =>
  queryOptions({
    queryKey: ['keeping', 'lot', lot],
    queryFn: ({ signal }) => read<LotKeepingRecord>(`/api/lots/${code(lot)}/keeping`, signal),
  });

export const specimenKeepingQuery = (specimen: string) =>
  queryOptions({
    queryKey: ['keeping', 'specimen', specimen],
    queryFn: ({ signal }) => read<SpecimenKeepingRecord>(`/api/specimens/${code(specimen)}/keeping`, signal),
  });

export const runHistoryQuery = (run: string) =>
  queryOptions({
    queryKey: ['run', run, 'history'],
    queryFn: ({ signal }) => read<{ items: SaidOfRun[] }>(`/api/runs/${code(run)}/history`, signal),
  });

export const reviewsQuery = (run: string) =>
  queryOptions({
    queryKey: ['run', run, 'reviews'],
    queryFn: ({ signal }) => read<ReviewsOfRun>(`/api/runs/${code(run)}/reviews`, signal),
  });

export const useLots = () => useInfiniteQuery(lotsQuery);
export const useLot = (lot: string) => useQuery(lotQuery(lot));
export const useRun = (lot: string, run: string) => useQuery(runQuery(lot, run));

export const packagesQuery = (lot: string) =>
  queryOptions({
    queryKey: ['lot', lot, 'packages'],
    queryFn: ({ signal }) => read<{ items: LotPackage[] }>(`/api/lots/${code(lot)}/packages`, signal),
  });

export const packageAddress = (n: number) => `/api/packages/${n}/zip`;

export const oldTablesQuery = listQuery<OldTableInList>(['old results'], '/api/old-results');

export const oldTableQuery = (table: string) =>
  queryOptions({
    queryKey: ['old results', 'table', table],
    queryFn: ({ signal }) => read<OldTable>(`/api/old-results/${code(table)}`, signal),
  });

export const oldTableFileAddress = (n: number) => `/api/old-results/${n}/file`;

export const oldResultsBesideQuery = (of: 'lots' | 'products', key: string) =>
  queryOptions({
    queryKey: ['old results', of, key],
    queryFn: ({ signal }) => read<{ items: OldResultBeside[] }>(`/api/${of}/${code(key)}/old-results`, signal),
  });

export const productQuery = (product: string) =>
  queryOptions({
    queryKey: ['product', product],
    queryFn: ({ signal }) => read<ProductRecord>(`/api/products/${code(product)}`, signal),
  });

export const lotsOverTimeQuery = (product: string) =>
  queryOptions({
    queryKey: ['product', product, 'lots over time'],
    queryFn: ({ signal }) => read<LotsOverTime>(`/api/products/${code(product)}/lots-over-time`, signal),
  });

export const retestsQuery = (lot: string) =>
  queryOptions({
    queryKey: ['lot', lot, 'retests'],
    queryFn: ({ signal }) => read<{ items: RetestRecord[] }>(`/api/lots/${code(lot)}/retests`, signal),
  });

export const personQuery = (person: string) =>
  queryOptions({
    queryKey: ['people', person],
    queryFn: ({ signal }) => read<PersonRecord>(`/api/people/${code(person)}`, signal),
  });

export const competencesQuery = (person: string) =>
  queryOptions({
    queryKey: ['people', person, 'competences'],
    queryFn: ({ signal }) => read<{ items: CompetenceRecord[] }>(`/api/people/${code(person)}/competences`, signal),
  });

export const outsideIdentityQuery = (person: string) =>
  queryOptions({
    queryKey: ['people', person, 'outside identity'],
    queryFn: ({ signal }) =>
      read<{ identity: OutsideIdentity }>(`/api/people/${code(person)}/outside-identity`, signal),
  });
