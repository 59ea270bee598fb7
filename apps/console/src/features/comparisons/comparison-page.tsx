import { type ComparisonResult } from '@breakbook/lab';
import { printPercent } from '@breakbook/units';
import { useQuery } from '@tanstack/react-query';
import { type ReactNode } from 'react';
import { Link, useParams } from 'react-router';
import { type ComparisonRecord } from '../../client/answers.js';
import { comparisonQuery } from '../../client/comparison-queries.js';
import { labQuery, peopleQuery } from '../../client/queries.js';
import { comparisonAddress, productAddress, referenceAddress, specimenAddress } from '../../parts/addresses.js';
import { moment } from '../../parts/moment.js';
import { HeadStrip, Sheet } from '../../parts/sheet/sheet.js';
import { Reading, Trouble } from '../../parts/trouble.js';
import { Who } from '../../parts/who.js';
import { HiddenFromYou } from '../custody/hidden-from-you.js';
import { useMe } from '../people/me.js';
import { ApprovalSection } from './approval-section.js';
import { AroundSection } from './around-section.js';
import { CodesSection } from './codes-section.js';
import { DeclaredSection } from './declared-section.js';
import { ItemsSection } from './items-section.js';
import { NotExaminedSection } from './outcome-section.js';
import { RevisionsSection } from './revisions-section.js';
import { SeenSection } from './seen-section.js';

/** One comparison: what it came to, on what that rests, what was not examined, and what was declared by whom. */
export function ComparisonPage() {
  const { comparison: key = '' } = useParams();
  const { data, error, refetch } = useQuery(comparisonQuery(key));
  return (
    <Sheet title={`Comparison ${key}`}>
      {data ? (
        <ComparisonSheet of={data} />
      ) : error ? (
        <Trouble error={error} onAgain={() => void refetch()} />
      ) : (
        <Reading what={`comparison ${key}`} />
      )}
    </Sheet>
  );
}

function ComparisonSheet({ of }: { of: ComparisonRecord }) {
  const { data: people = [] } = useQuery(peopleQuery);
  const { data: lab } = useQuery(labQuery);
  const zone = lab?.zone ?? 'UTC';
  const { content, setAside } = of;
  const result = undefined as ComparisonResult | undefined;
  const locked = false;
  return (
    <>
      <ComparisonHead of={of} zone={zone} people={people} />
      {of.hiddenFromYou && <HiddenFromYou />}
      {!result && <DeclaredSection of={of} people={people} />}
      <SeenSection of={of} result={result} people={people} zone={zone} />
      <ItemsSection of={of} gaps={result?.gaps ?? []} people={people} zone={zone} />
      <NotExaminedSection
        notExamined={result?.notExamined ?? content.notExamined}
        setAside={setAside}
        people={people}
        zone={zone}
      />
      {result && <DeclaredSection of={of} people={people} />}
      <AroundSection of={of} people={people} zone={zone} />
      <CodesSection of={of} locked={locked} people={people} zone={zone} />
      <ApprovalSection of={of} people={people} />
      <RevisionsSection of={of} people={people} zone={zone} />
    </>
  );
}

interface HeadProps {
  of: ComparisonRecord;
  people: Parameters<typeof Who>[0]['people'];
  zone: string;
}

function ComparisonHead({ of, people, zone }: HeadProps) {
  const { duties } = useMe();
  const { comparison, content, state, revision, declaredBy, declaredAt } = of;
  return (
    <HeadStrip
      noun="Comparison"
      name={comparison}
      of={<bdi>{content.title}</bdi>}
      outcome={`${state}, rev. ${revision}`}
      sentence={<bdi>{content.question}</bdi>}
      next={nextOf(of)}
      actions={
        duties.includes('define') &&
        (state === 'approved' || state === 'declined') && (
          <Link className="action" to={`${comparisonAddress(comparison)}/next`}>
            Declare anew
          </Link>
        )
      }
      facts={[
        { term: 'Product', says: <Link to={productAddress(content.product)}>{content.product}</Link> },
        ...comparedFacts(of),
        { term: 'Confidence, of all together', says: printPercent(content.confidence) },
        {
          term: 'Declared',
          says: (
            <>
              {moment(declaredAt, zone)}, by <Who people={people} person={declaredBy} />
            </>
          ),
        },
      ]}
    />
  );
}

/** The head names so many items; the others stand below. */
const MOST_NAMED = 8;

function comparedFacts({ content: { compared } }: ComparisonRecord): { term: string; says: ReactNode }[] {
  if (compared.what === 'two groups')
    return ([compared.first, compared.second] as const).map(({ title, lots }) => ({
      term: title,
      says: lots.join(', '),
    }));
  const { reference, items } = compared;
  return [
    {
      term: 'Reference',
      says: (
        <>
          <Link to={referenceAddress(reference.reference)}>{reference.reference}</Link> rev. {reference.revision}
        </>
      ),
    },
    {
      term: items.length === 1 ? 'Item' : 'Items',
      says:
        items.length > MOST_NAMED
          ? `${items.length}, named below`
          : items.map((item, index) => (
              <span key={item}>
                {index > 0 && ', '}
                <Link to={specimenAddress(item)}>{item}</Link>
              </span>
            )),
    },
  ];
}

function nextOf({ state, mayApprove }: ComparisonRecord): string {
  switch (state) {
    case 'declared':
      return mayApprove.length === 0
        ? 'another person with the duty to define approves what is declared; there is none yet.'
        : 'another person approves what is declared, below; then the items are examined.';
    case 'declined':
      return 'it is declared anew, with the reason.';
    case 'concluded':
      return 'its conclusions are locked; a report of them can be made.';
    case 'withdrawn':
      return 'nothing: it was withdrawn.';
    case 'approved':
      return 'the items are examined and tested as declared; then the result is asked for.';
  }
}
