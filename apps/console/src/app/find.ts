import { isNotEvaluated, type LotBundle } from '@breakbook/lab';
import type { QueryClient } from '@tanstack/react-query';
import type { LotInList } from '../client/answers.js';
import { ProblemAnswer } from '../client/problem-answer.js';
import { lotQuery, lotsQuery, rigQuery, runRecordQuery, specimensCalledQuery } from '../client/queries.js';
import { lotAddress, rigAddress, runAddress, specimenAddress } from '../parts/addresses.js';

/** A list is read to its end, which is far below this many pieces. */
const MOST_PIECES = 1000;

/** A thing that a scanned or typed code names, and the sheet that shows it. */
export interface Found {
  what: string;
  address: string;
}

/**
 * What is called this? Lots, runs, specimens and serials are compared letter by letter but for capitals; a noun in
 * front, as in "run 161", narrows the search.
 */
export async function find(typed: string, queries: QueryClient): Promise<Found[]> {
  const { noun, code } = asked(typed);
  const lots = await everyLot(queries);
  const named = lots.filter(({ lot }) => same(lot, code));
  if (named.length > 0 && noun !== 'run' && noun !== 'specimen')
    return named.map(({ lot }) => ({ what: `Lot ${lot}`, address: lotAddress(lot) }));

  const answers = await Promise.all(
    lots
      .filter(({ evaluation }) => !isNotEvaluated(evaluation))
      .map(({ lot }) => queries.fetchQuery({ ...lotQuery(lot), staleTime: 60_000 })),
  );
  const judged = answers.flatMap(({ bundle }) => [
    ...(noun === 'specimen' ? [] : runsCalled(bundle, code)),
    ...(noun === 'run' ? [] : specimensCalled(bundle, code)),
  ]);
  return judged.length > 0 ? judged : calledExactly(code, noun, queries);
}

/** Things of lots that were never evaluated, and rigs, are asked for by their very name. */
async function calledExactly(code: string, noun: string | undefined, queries: QueryClient): Promise<Found[]> {
  const [specimens, run, rig] = await Promise.all([
    noun === 'run' || noun === 'lot' ? [] : queries.fetchQuery(specimensCalledQuery(code)),
    noun === 'specimen' || noun === 'lot' ? undefined : thereOrNot(queries.fetchQuery(runRecordQuery(code))),
    noun === undefined ? thereOrNot(queries.fetchQuery(rigQuery(code))) : undefined,
  ]);
  return [
    ...specimens.map(({ key, content }) => ({
      what: `Specimen ${key} in lot ${content.lot}`,
      address: specimenAddress(key),
    })),
    ...(run ? [{ what: `Run ${code} in lot ${run.lot}`, address: runAddress(run.lot, code) }] : []),
    ...(rig ? [{ what: `Rig ${code}`, address: rigAddress(code) }] : []),
  ];
}

async function thereOrNot<T>(asked: Promise<T>): Promise<T | undefined> {
  return asked.catch((error: unknown) => {
    if (error instanceof ProblemAnswer && error.status === 404) return undefined;
    throw error;
  });
}

async function everyLot(queries: QueryClient): Promise<LotInList[]> {
  const { pages } = await queries.fetchInfiniteQuery({ ...lotsQuery, pages: MOST_PIECES });
  return pages.flatMap(({ items }) => items);
}

export function asked(typed: string): { noun?: 'lot' | 'run' | 'specimen'; code: string } {
  const [, noun, code] = /^\s*(?:(lot|run|specimen)\s+)?(.*?)\s*$/i.exec(typed) ?? [];
  return { ...(noun ? { noun: noun.toLowerCase() as 'lot' | 'run' | 'specimen' } : {}), code: code ?? '' };
}

function runsCalled({ lot, runs }: LotBundle, code: string): Found[] {
  return runs
    .filter(({ run }) => same(run, code))
    .map(({ run, specimen }) => ({
      what: `Run ${run}, of specimen ${specimen} in lot ${lot.lot}`,
      address: runAddress(lot.lot, run),
    }));
}

/** A specimen is shown on the sheets of its runs, or on its lot's while it has none. */
function specimensCalled({ lot, specimens, runs }: LotBundle, code: string): Found[] {
  return specimens
    .filter(({ specimen, serial }) => same(specimen, code) || (serial !== undefined && same(serial, code)))
    .flatMap(({ specimen }) => {
      const own = runs.filter((run) => run.specimen === specimen);
      if (own.length === 0)
        return [{ what: `Specimen ${specimen} in lot ${lot.lot}, not tested yet`, address: specimenAddress(specimen) }];
      return own.map(({ run }) => ({
        what: `Specimen ${specimen} in lot ${lot.lot}, run ${run}`,
        address: runAddress(lot.lot, run),
      }));
    });
}

function same(a: string, b: string): boolean {
  return a.localeCompare(b, 'en', { sensitivity: 'accent' }) === 0;
}
