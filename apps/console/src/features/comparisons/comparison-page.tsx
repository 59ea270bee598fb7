import { printPercent } from '@breakbook/units';
import { useQuery } from '@tanstack/react-query';
import type { ReactNode } from 'react';
import { Link, useParams } from 'react-router';
import type { ComparisonRecord, ComparisonResultRecord } from '../../client/answers.js';
import { comparisonQuery, comparisonResultQuery } from '../../client/comparison-queries.js';
import { labQuery, peopleQuery } from '../../client/queries.js';
import { comparisonAddress, productAddress, referenceAddress, specimenAddress } from '../../parts/addresses.js';
import { moment } from '../../parts/moment.js';
import { HeadStrip, Sheet } from '../../parts/sheet/sheet.js';
import { Reading, Trouble } from '../../parts/trouble.js';
import { ToldFrom } from '../../parts/units/reader.js';
import { Who } from '../../parts/who.js';
import { MakeSheet } from '../lots/make-sheet.js';
import { useMe } from '../people/me.js';
import { ApprovalSection } from './approval-section.js';
import { AroundSection } from './around-section.js';
import { CharacteristicSection } from './characteristic-section.js';
import { CodesSection } from './codes-section.js';
import { ConclusionSection } from './conclusion-section.js';
import { DeclaredSection } from './declared-section.js';
import { sidesOf } from './in-words.js';
import { ItemsSection } from './items-section.js';
import { Level } from './level.js';
import { NotExaminedSection, OutcomeSection } from './outcome-section.js';
import { RevisionsSection } from './revisions-section.js';
import { SeenSection } from './seen-section.js';
import { WorkOut } from './work-out.js';

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
  const { data: record } = useQuery({
    ...comparisonResultQuery(of.comparison, of.result ?? 0),
    enabled: of.result !== undefined && !of.hiddenFromYou,
  });
  const result = record?.content;
  const concluded = of.conclusions.find((one) => one.inForce);
  return (
    <>
      <ComparisonHead of={of} zone={zone} people={people} />
      {record && (
        <ToldFrom record={record}>
          <ResultSections of={of} record={record} zone={zone} />
        </ToldFrom>
      )}
      {!result && <DeclaredSection of={of} people={people} />}
      <SeenSection of={of} result={result} people={people} zone={zone} />
      <ItemsSection of={of} people={people} zone={zone} />
      <NotExaminedSection
        notExamined={result?.notExamined ?? content.notExamined}
        setAside={setAside}
        people={people}
        zone={zone}
      />
      {result && <DeclaredSection of={of} people={people} />}
      <AroundSection of={of} people={people} zone={zone} />
      <CodesSection of={of} locked={of.conclusions.length > 0} people={people} zone={zone} />
      <ConclusionSection of={of} result={record} zone={zone} />
      {concluded && <MakeSheet of="comparison" name={of.comparison} zone={zone} oneSince={concluded.signature.at} />}
      <ApprovalSection of={of} people={people} />
      <RevisionsSection of={of} people={people} zone={zone} />
    </>
  );
}

/** What it came to, then each declared characteristic, whatever it showed. */
function ResultSections({ of: { content, conclusions, inForce }, record, zone }: ResultSectionsProps) {
  const { number, content: result, changedSince, figures } = record;
  const concluded = conclusions.find((one) => one.inForce);
  return (
    <>
      <OutcomeSection result={result} zone={zone}>
        <p className="quiet small">
          Result {number}, of rev. {record.revision}
          {concluded === undefined
            ? ': not locked yet, so nothing is concluded.'
            : concluded.result === number
              ? ': locked.'
              : `: worked out since conclusions were locked over result ${concluded.result}.`}
          {changedSince.length > 0 && ` Since then there changed: ${changedSince.join(', ')}.`}
          {record.revision !== inForce && ` Rev. ${inForce} is in force by now.`}
        </p>
      </OutcomeSection>
      {result.characteristics.map((one) => (
        <CharacteristicSection
          key={one.name}
          of={one}
          figure={figures.find(({ characteristic }) => characteristic === one.name)?.figure}
          sides={sidesOf(content)}
          power={content.power}
        />
      ))}
    </>
  );
}

interface ResultSectionsProps {
  of: ComparisonRecord;
  record: ComparisonResultRecord;
  zone: string;
}

interface HeadProps {
  of: ComparisonRecord;
  people: Parameters<typeof Who>[0]['people'];
  zone: string;
}

function ComparisonHead({ of, people, zone }: HeadProps) {
  const { duties } = useMe();
  const { comparison, content, state, revision, declaredBy, declaredAt, conclusions } = of;
  const concluded = conclusions.find(({ inForce }) => inForce);
  return (
    <HeadStrip
      noun="Comparison"
      name={comparison}
      of={<bdi>{content.title}</bdi>}
      outcome={
        concluded ? (
          <>
            <Level of={concluded.level} large /> {state}, rev. {revision}
          </>
        ) : (
          `${state}, rev. ${revision}`
        )
      }
      sentence={<bdi>{content.question}</bdi>}
      next={`${nextOf(of)}${of.hiddenFromYou ? ' You examine this blind: which item is which is hidden until conclusions are locked.' : ''}`}
      actions={
        <>
          <WorkOut of={of} />
          {duties.includes('define') && (state === 'approved' || state === 'declined') && (
            <Link className="action" to={`${comparisonAddress(comparison)}/next`}>
              Declare anew
            </Link>
          )}
        </>
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

function nextOf({ state, mayApprove, result }: ComparisonRecord): string {
  switch (state) {
    case 'declared':
      return mayApprove.length === 0
        ? 'another person with the duty to define approves what is declared; there is none yet.'
        : 'another person approves what is declared, below; then the items are examined.';
    case 'declined':
      return 'it is declared anew, with the reason.';
    case 'concluded':
      return 'a report is made of it, below. The conclusions are locked: only others can take their place, with the reason.';
    case 'withdrawn':
      return 'nothing: it was withdrawn.';
    case 'approved':
      return result === undefined
        ? 'the items are examined and tested as declared; then the result is worked out.'
        : 'somebody who neither declared nor tested nor examined anything of it locks the conclusions, below.';
  }
}
