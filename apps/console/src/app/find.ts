import { isNotEvaluated, type LotBundle } from '@breakbook/lab';
import { type QueryClient } from '@tanstack/react-query';
import { type LotInList } from '../client/answers.js';
import { lotQuery, lotsQuery } from '../client/queries.js';
import { lotAddress, runAddress } from '../parts/addresses.js';

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
  return answers.flatMap(({ bundle }) => [
    ...(noun === 'specimen' ? [] : runsCalled(bundle, code)),
    ...(noun === 'run' ? [] : specimensCalled(bundle, code)),
  ]);
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
        return [{ what: `Specimen ${specimen} in lot ${lot.lot}, not tested yet`, address: lotAddress(lot.lot) }];
      return own.map(({ run }) => ({
        what: `Specimen ${specimen} in lot ${lot.lot}, run ${run}`,
        address: runAddress(lot.lot, run),
      }));
    });
}

function same(a: string, b: string): boolean {
  return a.localeCompare(b, 'en', { sensitivity: 'accent' }) === 0;
}
