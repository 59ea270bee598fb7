import type { CustodyGap, Person } from '@breakbook/lab';
import type { CustodyRecord } from '../../client/answers.js';
import { Outcome } from '../../parts/marks/outcome.js';
import { moment, withMoments } from '../../parts/moment.js';
import { Table } from '../../parts/table.js';
import { Who } from '../../parts/who.js';

type Event = CustodyRecord['items'][number];
type Row = { event: Event } | { gap: CustodyGap };

interface CustodyTableProps {
  of: CustodyRecord;
  people: readonly Person[];
  zone: string;
}

/** What happened to a specimen, in its order; gaps stand where they are. */
export function CustodyTable({ of: { specimen, items, gaps }, people, zone }: CustodyTableProps) {
  const when = (at: string) => <span className="whole">{moment(at, zone)}</span>;
  return (
    <Table<Row>
      caption={`Custody of ${specimen}, in the order in which it happened`}
      columns={[
        {
          head: 'At',
          cell: (row) => ('event' in row ? when(row.event.at) : <Outcome word="not evaluated" as="gap" />),
        },
        {
          head: 'Step',
          wide: true,
          cell: (row) => ('event' in row ? <StepSaid of={row.event} /> : <bdi>{gapSaid(row.gap, people, zone)}</bdi>),
        },
        { head: 'From', cell: (row) => 'event' in row && <Holder people={people} of={row.event.from} /> },
        { head: 'To', cell: (row) => 'event' in row && <Holder people={people} of={row.event.to} /> },
        { head: 'Place', cell: (row) => 'event' in row && <bdi>{row.event.place}</bdi> },
        { head: 'Seal', cell: (row) => 'event' in row && <bdi>{row.event.seal ?? 'none'}</bdi> },
        { head: 'Condition', wide: true, cell: (row) => 'event' in row && <bdi>{row.event.condition}</bdi> },
        {
          head: 'Written down',
          wide: true,
          cell: (row) =>
            'event' in row && (
              <>
                <Who people={people} person={row.event.recordedBy} />, {when(row.event.recordedAt)}
              </>
            ),
        },
      ]}
      rows={inOrder(items, gaps)}
      rowKey={(row) => ('event' in row ? `${row.event.at} ${row.event.step}` : `gap ${row.gap.sentence}`)}
      empty="Nothing of its custody is written down."
    />
  );
}

/** A gap as it was found, people by their names and instants by the lab's clock. */
function gapSaid({ sentence }: CustodyGap, people: readonly Person[], zone: string): string {
  // The longest first, since a key may begin with another.
  const keys = people.map(({ person }) => person).sort((a, b) => b.length - a.length);
  const named = keys.reduce((text, key) => {
    const name = people.find(({ person }) => person === key)?.name ?? key;
    return text.replace(new RegExp(`(?<![\\w.-])${key.replaceAll('.', '\\.')}(?![\\w-])`, 'g'), () => name);
  }, sentence);
  return withMoments(named, zone);
}

function StepSaid({ of: { step, changesItem } }: { of: Event }) {
  return (
    <>
      {step}
      {changesItem && (
        <span className="under">
          <Outcome word="on hold" as="changed the item" />
        </span>
      )}
    </>
  );
}

/** Somebody of the lab, or others by the name that was written. */
function Holder({ people, of }: { people: readonly Person[]; of: string | undefined }) {
  return of === undefined ? null : <Who people={people} person={of} />;
}

/** A gap stands after what it follows, or before what it precedes; else at the end. */
function inOrder(items: readonly Event[], gaps: readonly CustodyGap[]): Row[] {
  const left = [...gaps];
  const take = (fits: (gap: CustodyGap) => boolean): Row[] => {
    const taken = left.filter(fits);
    for (const gap of taken) left.splice(left.indexOf(gap), 1);
    return taken.map((gap) => ({ gap }));
  };
  const rows = items.flatMap((event): Row[] => [
    ...take(({ after, before }) => after === undefined && before === event.at),
    { event },
    ...take(({ after }) => after === event.at),
  ]);
  return [...rows, ...left.map((gap) => ({ gap }))];
}
