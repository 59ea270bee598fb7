import type { Person } from '@breakbook/lab';
import { useQuery } from '@tanstack/react-query';
import { Link, useParams } from 'react-router';
import type { ReferenceRecord, ReferenceVersion } from '../../client/answers.js';
import { referenceQuery, referenceRevisionsQuery } from '../../client/comparison-queries.js';
import { labQuery, peopleQuery } from '../../client/queries.js';
import {
  declareComparisonAddress,
  lotAddress,
  productAddress,
  referenceAddress,
  specimenAddress,
} from '../../parts/addresses.js';
import { day, moment } from '../../parts/moment.js';
import { HeadStrip, Section, Sheet } from '../../parts/sheet/sheet.js';
import { Table } from '../../parts/table.js';
import { Reading, Trouble } from '../../parts/trouble.js';
import { Who } from '../../parts/who.js';
import { useMe } from '../people/me.js';
import { lotsIn } from './references-table.js';

type Reference = ReferenceRecord['content'];

/** One reference: its units by serial and lot, how and when they were chosen, and what it was before. */
export function ReferencePage() {
  const { reference: key = '' } = useParams();
  const { data, error, refetch } = useQuery(referenceQuery(key));
  return (
    <Sheet title={`Reference ${key}`}>
      {data ? (
        <ReferenceSheet one={data} />
      ) : error ? (
        <Trouble error={error} onAgain={() => void refetch()} />
      ) : (
        <Reading what={`reference ${key}`} />
      )}
    </Sheet>
  );
}

function ReferenceSheet({ one: { key, content } }: { one: ReferenceRecord }) {
  const { duties } = useMe();
  const { data: people = [] } = useQuery(peopleQuery);
  const { data: lab } = useQuery(labQuery);
  const { data: revisions = [] } = useQuery(referenceRevisionsQuery(key));
  const zone = lab?.zone ?? 'UTC';
  const lots = lotsIn(content.units);
  return (
    <>
      <HeadStrip
        noun="Reference"
        name={key}
        of={<bdi>{content.title}</bdi>}
        sentence={`${content.units.length} ${content.units.length === 1 ? 'unit' : 'units'} of ${lots.length} ${lots.length === 1 ? 'lot' : 'lots'}, frozen ${moment(content.frozenAt, zone)}.`}
        next={
          lots.length < 3
            ? 'units of further lots, by the next revision: from fewer than three lots, nothing can be told but of these lots.'
            : 'what is compared with it is declared before it is tested.'
        }
        actions={
          duties.includes('define') && (
            <>
              <Link
                className="action main"
                to={declareComparisonAddress({ product: content.product, reference: `${key} ${content.revision}` })}
              >
                Declare a comparison
              </Link>
              <Link className="action" to={`${referenceAddress(key)}/next`}>
                Choose otherwise
              </Link>
            </>
          )
        }
        facts={[
          { term: 'Product', says: <Link to={productAddress(content.product)}>{content.product}</Link> },
          { term: 'Made', says: `${day(content.madeFrom)} to ${day(content.madeTo)}` },
          { term: 'Revision', says: content.revision },
          { term: 'Chosen by', says: <Who people={people} person={content.chosenBy} /> },
        ]}
      />
      <Section
        question="Which specimens are its units?"
        word="Units"
        aside="Each by its serial, as its build records have it."
      >
        <Table<Reference['units'][number]>
          caption={`Units of reference ${key} rev. ${content.revision}`}
          columns={[
            { head: 'Specimen', cell: ({ specimen }) => <Link to={specimenAddress(specimen)}>{specimen}</Link> },
            { head: 'Serial', cell: ({ serial }) => <bdi>{serial ?? 'none'}</bdi> },
            { head: 'Lot', cell: ({ lot }) => <Link to={lotAddress(lot)}>{lot}</Link> },
          ]}
          rows={content.units}
          rowKey={({ specimen }) => specimen}
          empty="It has no unit."
        />
        <p>
          How they were chosen: <bdi>{content.choice}</bdi>
        </p>
      </Section>
      <VariantsSection content={content} people={people} />
      <Section
        question="What was it before?"
        word="Revisions"
        aside="None ever changes; a comparison names the one it rests on."
      >
        <Revisions revisions={revisions} people={people} zone={zone} />
      </Section>
    </>
  );
}

function VariantsSection({ content: { variants }, people }: { content: Reference; people: readonly Person[] }) {
  return (
    <Section question="What else was built in that time?" word="Build variants">
      {variants ? (
        <>
          <p>
            <Who people={people} person={variants.checkedBy} /> looked through: <bdi>{variants.list}</bdi>
          </p>
          <Table<[string, string[]]>
            caption="What a feature may be besides what the units show"
            columns={[
              { head: 'Feature', cell: ([feature]) => feature },
              { head: 'Also built', wide: true, cell: ([, built]) => <bdi>{built.join('; ') || 'nothing else'}</bdi> },
            ]}
            rows={Object.entries(variants.features)}
            rowKey={([feature]) => feature}
            empty="No feature is named: nothing but what the units show was built."
          />
        </>
      ) : (
        <p>Nobody looked through the build records, so a physical difference from these units is inconclusive.</p>
      )}
    </Section>
  );
}

function Revisions(given: { revisions: readonly ReferenceVersion[]; people: readonly Person[]; zone: string }) {
  const { revisions, people, zone } = given;
  return (
    <ol className="history">
      {revisions.toReversed().map(({ version, at, by, reason, content }) => (
        <li key={version}>
          <time dateTime={at}>{moment(at, zone)}</time>
          <span>
            {' '}
            Rev. {content.revision}: {content.units.length} units of {lotsIn(content.units).join(', ')}, chosen by{' '}
            <Who people={people} person={by} />
            {reason !== undefined && (
              <>
                . Reason: <bdi>{reason}</bdi>
              </>
            )}
          </span>
        </li>
      ))}
    </ol>
  );
}
