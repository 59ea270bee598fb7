import type { InfiniteData, UseInfiniteQueryResult } from '@tanstack/react-query';
import type { ReactNode } from 'react';
import type { PageOf } from '../client/answers.js';
import { HeadStrip, Sheet } from './sheet/sheet.js';
import { Reading, Trouble } from './trouble.js';

interface ListingProps<T> {
  title: string;
  sentence?: ReactNode;
  actions?: ReactNode;
  list: UseInfiniteQueryResult<InfiniteData<PageOf<T>>>;
  /** What is listed, for the button that shows more: "lots". */
  things: string;
  children: (items: readonly T[]) => ReactNode;
}

/** A sheet that is a list, newest first, read a piece at a time. */
export function Listing<T>({ title, sentence, actions, list, things, children }: ListingProps<T>) {
  const { data, error, refetch, hasNextPage, fetchNextPage, isFetchingNextPage } = list;
  const items = data?.pages.flatMap((page) => page.items);
  return (
    <Sheet title={title}>
      {items ? (
        <>
          <HeadStrip
            noun=""
            name={title}
            of={hasNextPage ? `the newest ${items.length}` : `${items.length} in all`}
            sentence={sentence}
            actions={actions}
          />
          <div className="listing">{children(items)}</div>
          {hasNextPage && (
            <button type="button" className="action" onClick={() => void fetchNextPage()} disabled={isFetchingNextPage}>
              Show older {things}
            </button>
          )}
        </>
      ) : error ? (
        <Trouble error={error} onAgain={() => void refetch()} />
      ) : (
        <Reading what={`the list of ${things}`} />
      )}
    </Sheet>
  );
}
