import { useInfiniteQuery } from '@tanstack/react-query';
import { Link } from 'react-router';
import { flagsOfLotQuery } from '../../client/queries.js';
import { safetyFlagAddress } from '../../parts/addresses.js';
import { Section } from '../../parts/sheet/sheet.js';

/** The safety flags on a lot; nothing where there is none. */
export function FlagsOfLot({ lot }: { lot: string }) {
  const { data } = useInfiniteQuery(flagsOfLotQuery(lot));
  const items = data?.pages.flatMap((page) => page.items) ?? [];
  if (items.length === 0) return null;
  return (
    <Section question="Does anything of it endanger riders?" word="Safety flags">
      <ul className="notes">
        {items.map(({ number, state, content, reason }) => (
          <li key={number}>
            <Link to={safetyFlagAddress(number)}>Safety flag {number}</Link>, {state}: <bdi>{content.title}</bdi>
            {state === 'closed' && reason !== undefined && (
              <>
                {' '}
                Decided: <bdi>{reason}</bdi>
              </>
            )}
          </li>
        ))}
      </ul>
    </Section>
  );
}
