import { SAFETY_CAUTION } from '@breakbook/lab';
import { useInfiniteQuery, useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { Link } from 'react-router';
import type { SafetyFlagRecord } from '../../client/answers.js';
import { labQuery, peopleQuery, safetyFlagsQuery } from '../../client/queries.js';
import { safetyFlagAddress } from '../../parts/addresses.js';
import { Choice } from '../../parts/choice.js';
import { Listing } from '../../parts/listing.js';
import { moment } from '../../parts/moment.js';
import { Fold } from '../../parts/sheet/sheet.js';
import { Table } from '../../parts/table.js';
import { Who } from '../../parts/who.js';
import { useMe } from '../people/me.js';
import { FlagForm } from './flag-form.js';

const STATES = [
  { value: 'open', word: 'open' },
  { value: 'closed', word: 'closed' },
  { value: 'any', word: 'all' },
] as const;

/** What somebody saw that may endanger riders of what was shipped. */
export function SafetyFlagsPage() {
  const [state, setState] = useState<SafetyFlagRecord['state'] | 'any'>('open');
  const { data: people = [] } = useQuery(peopleQuery);
  const { data: lab } = useQuery(labQuery);
  const { duties } = useMe();
  return (
    <Listing
      title="Safety flags"
      things="safety flags"
      sentence={`What was seen that may endanger riders. ${SAFETY_CAUTION}`}
      list={useInfiniteQuery(safetyFlagsQuery(state))}
    >
      {(items) => (
        <>
          <Choice legend="Those" options={STATES} chosen={state} onChoose={setState} />
          <Table<SafetyFlagRecord>
            caption="Safety flags, the newest first"
            columns={[
              { head: 'No.', cell: ({ number }) => <Link to={safetyFlagAddress(number)}>{number}</Link> },
              { head: 'What', wide: true, cell: ({ content }) => <bdi>{content.title}</bdi> },
              { head: 'Lots', cell: ({ concerns }) => concerns.join(', ') },
              { head: 'State', cell: (one) => one.state },
              {
                head: 'Raised',
                wide: true,
                cell: ({ raisedBy, raisedAt }) => (
                  <>
                    <span className="whole">{moment(raisedAt, lab?.zone ?? 'UTC')}</span>,{' '}
                    <Who people={people} person={raisedBy} />
                  </>
                ),
              },
            ]}
            rows={items}
            rowKey={({ number }) => `${number}`}
            empty={state === 'open' ? 'None is open.' : 'There is none.'}
          />
          {duties.length > 0 && (
            <Fold word="Raise a safety flag">
              <FlagForm />
            </Fold>
          )}
        </>
      )}
    </Listing>
  );
}
