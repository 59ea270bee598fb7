import type { Person } from '@breakbook/lab';
import type { ComparisonRecord, ComparisonRevision } from '../../client/answers.js';
import { Outcome } from '../../parts/marks/outcome.js';
import { moment } from '../../parts/moment.js';
import { Fold, Section } from '../../parts/sheet/sheet.js';
import { Table } from '../../parts/table.js';
import { Who } from '../../parts/who.js';

interface RevisionsSectionProps {
  of: ComparisonRecord;
  people: readonly Person[];
  zone: string;
}

/** What was declared when, by whom, why, and whether results had been there by then. */
export function RevisionsSection({ of, people, zone }: RevisionsSectionProps) {
  const { revisions, differences, withdrawn } = of;
  return (
    <Section question="What was declared, when, and by whom?" word="Revisions" aside="No revision ever changes.">
      <ol className="history">
        {revisions.toReversed().map((one) => (
          <li key={one.revision}>
            <time dateTime={one.declaredAt}>{moment(one.declaredAt, zone)}</time>
            <RevisionSaid of={one} people={people} zone={zone} />
          </li>
        ))}
      </ol>
      {differences.length > 0 && (
        <Fold word={`What rev. ${of.revision} declares otherwise`}>
          <Table<ComparisonRecord['differences'][number]>
            caption="Against the revision before it"
            columns={[
              { head: 'Place', cell: ({ place }) => <bdi>{place}</bdi> },
              { head: 'Before', wide: true, cell: ({ kept }) => <bdi>{kept ?? 'was not there'}</bdi> },
              { head: 'Now', wide: true, cell: ({ now }) => <bdi>{now ?? 'is not there'}</bdi> },
            ]}
            rows={differences}
            rowKey={({ pointer }) => pointer}
            empty=""
          />
        </Fold>
      )}
      {withdrawn && (
        <p>
          Withdrawn by <Who people={people} person={withdrawn.by} />, {moment(withdrawn.at, zone)}:{' '}
          <bdi>{withdrawn.reason}</bdi>
        </p>
      )}
    </Section>
  );
}

function RevisionSaid({ of, people, zone }: { of: ComparisonRevision; people: readonly Person[]; zone: string }) {
  const { revision, declaredBy, reason, before, declaredAfterResults, decision } = of;
  return (
    <div>
      <p>
        Rev. {revision}, declared by <Who people={people} person={declaredBy} />
        {reason !== undefined && (
          <>
            : <bdi>{reason}</bdi>
          </>
        )}
      </p>
      {declaredAfterResults && (
        <p>
          <Outcome word="on hold" as="declared after results were there" />: {before.runs}{' '}
          {before.runs === 1 ? 'run' : 'runs'} and {before.observations}{' '}
          {before.observations === 1 ? 'observation' : 'observations'} of its items.
        </p>
      )}
      {decision && (
        <p>
          {decision.decision === 'approved' ? 'Approved' : 'Declined'} by <Who people={people} person={decision.by} />,{' '}
          {moment(decision.at, zone)}
          {decision.because !== undefined && (
            <>
              : <bdi>{decision.because}</bdi>
            </>
          )}
        </p>
      )}
    </div>
  );
}
