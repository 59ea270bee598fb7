import type { Person } from '@breakbook/lab';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { Link } from 'react-router';
import type { ComparisonRecord } from '../../client/answers.js';
import { custodyQuery } from '../../client/comparison-queries.js';
import { specimenAddress } from '../../parts/addresses.js';
import { moment } from '../../parts/moment.js';
import { Section } from '../../parts/sheet/sheet.js';
import { Table } from '../../parts/table.js';
import { Who } from '../../parts/who.js';
import { CustodyTable } from '../custody/custody-table.js';

interface Around {
  people: readonly Person[];
  zone: string;
}

/** Who had each item from its receipt on, with what does not join up in it. */
export function ItemsSection({ of, ...around }: { of: ComparisonRecord } & Around) {
  const { compared } = of.content;
  if (compared.what === 'two groups') return null;
  return (
    <Section
      question="Who had the items, and what happened to them?"
      word="Custody"
      aside="A gap is shown as a gap. Steps after which an item was not what it was before are marked; their order is part of the record."
    >
      {compared.items.map((item) =>
        compared.items.length > OPEN_AT_ONCE ? (
          <FoldedItem key={item} item={item} {...around} />
        ) : (
          <OfItem key={item} item={item} {...around} />
        ),
      )}
    </Section>
  );
}

/** So many items stand open; where there are more, each is read once it is opened. */
const OPEN_AT_ONCE = 6;

function FoldedItem({ item, ...around }: { item: string } & Around) {
  const [open, setOpen] = useState(false);
  return (
    <details className="fold" onToggle={({ currentTarget }) => setOpen(currentTarget.open)}>
      <summary>{item}</summary>
      <div className="folded">{open && <OfItem item={item} {...around} />}</div>
    </details>
  );
}

function OfItem({ item, people, zone }: { item: string } & Around) {
  const { data } = useQuery(custodyQuery(item));
  return (
    <div>
      <h3>
        <Link to={specimenAddress(item)}>{item}</Link>
      </h3>
      {data && <CustodyTable of={data} people={people} zone={zone} />}
    </div>
  );
}

/** Who agreed to an examination that ends an item, or was told of it. */
export function ConsentsTable({ of: { consents, content }, people, zone }: { of: ComparisonRecord } & Around) {
  return (
    <Table<ComparisonRecord['consents'][number]>
      caption={
        content.mayGoToCourt
          ? 'Consents and notices: remnants may go to court, so one stands before each step that changes an item'
          : 'Consents and notices'
      }
      columns={[
        { head: 'What', cell: ({ kind }) => kind },
        { head: 'Who', wide: true, cell: ({ party }) => <bdi>{party}</bdi> },
        { head: 'About', wide: true, cell: ({ about }) => <bdi>{about}</bdi> },
        { head: 'At', cell: ({ at }) => <span className="whole">{moment(at, zone)}</span> },
        { head: 'Written down by', cell: ({ recordedBy }) => <Who people={people} person={recordedBy} /> },
      ]}
      rows={consents}
      rowKey={({ party, at, kind }) => `${kind} ${party} ${at}`}
      empty={
        content.mayGoToCourt
          ? 'None is recorded. Remnants may go to court, so no step that changes an item is taken before one is.'
          : 'None is recorded; none is asked for.'
      }
    />
  );
}
