import { useInfiniteQuery, useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { Link } from 'react-router';
import type { ProposalInList } from '../../client/answers.js';
import { labQuery, peopleQuery, proposalsQuery } from '../../client/queries.js';
import { proposalAddress } from '../../parts/addresses.js';
import { Listing } from '../../parts/listing.js';
import { moment } from '../../parts/moment.js';
import { Picks } from '../../parts/picks.js';
import { Table } from '../../parts/table.js';
import { Who } from '../../parts/who.js';

/** Methods, layouts, limits and plans that one person proposed and another approves. */
export function ApprovalsPage() {
  const [state, setState] = useState<'waiting' | 'any'>('waiting');
  const list = useInfiniteQuery(proposalsQuery(state));
  const { data: people = [] } = useQuery(peopleQuery);
  const { data: lab } = useQuery(labQuery);
  const zone = lab?.zone ?? 'UTC';
  return (
    <Listing
      title="Approvals"
      things="proposals"
      sentence="A method, layout, limit or plan is proposed by one person and approved by another. What is only proposed judges nothing."
      list={list}
    >
      {(proposals) => (
        <>
          <Picks
            legend="Which are shown"
            options={[
              { value: 'waiting', word: 'Those that wait' },
              { value: 'any', word: 'All there were' },
            ]}
            picked={[state]}
            onPick={([next]) => setState(next === 'any' ? 'any' : 'waiting')}
          />
          <Table<ProposalInList>
            caption={state === 'waiting' ? 'What waits for approval, newest first' : 'Proposals, newest first'}
            columns={[
              {
                head: 'Proposal',
                cell: ({ number, noun, key, revision }) => (
                  <Link to={proposalAddress(number)}>
                    {noun} {key} rev. {revision}
                  </Link>
                ),
              },
              { head: 'Title', wide: true, cell: ({ title }) => title },
              { head: 'State', cell: (one) => stateInWords(one) },
              {
                head: 'Proposed by',
                wide: true,
                cell: ({ proposedBy }) => <Who people={people} person={proposedBy} />,
              },
              { head: 'At', cell: ({ proposedAt }) => <span className="whole">{moment(proposedAt, zone)}</span> },
              { head: 'May be approved by', wide: true, cell: ({ before }) => <People keys={before} /> },
            ]}
            rows={proposals}
            rowKey={({ number }) => String(number)}
            empty={
              state === 'waiting'
                ? 'Nothing waits for approval.'
                : 'Nothing was proposed yet. What came with a lot folder counts as approved by whom it names.'
            }
          />
        </>
      )}
    </Listing>
  );
}

/** How a proposal stands, in words. */
export function stateInWords({ state, inForceFrom }: ProposalInList): string {
  if (state === 'waiting') return 'waits for approval';
  return state === 'approved' && inForceFrom !== undefined ? `approved, from ${inForceFrom}` : state;
}

/** People by their names, one after another. */
export function People({ keys }: { keys: readonly string[] }) {
  const { data: people = [] } = useQuery(peopleQuery);
  if (keys.length === 0) return 'nobody: no other person has the duty to define';
  return keys.map((key, index) => (
    <span key={key}>
      {index > 0 && ', '}
      <Who people={people} person={key} />
    </span>
  ));
}
