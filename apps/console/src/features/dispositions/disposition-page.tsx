import { useQuery } from '@tanstack/react-query';
import { Link, useParams } from 'react-router';
import type { SheetToSign } from '../../client/answers.js';
import { sheetToSignQuery } from '../../client/queries.js';
import { lotAddress } from '../../parts/addresses.js';
import { Outcome } from '../../parts/marks/outcome.js';
import { HeadStrip, Section, Sheet } from '../../parts/sheet/sheet.js';
import { Reading, Trouble } from '../../parts/trouble.js';
import { ToldFrom, usePrint } from '../../parts/units/reader.js';
import { IssueSection } from '../certificates/issue-section.js';
import { AroundSections } from './around-sections.js';
import { EveryRunSection } from './every-run-section.js';
import { SignSection } from './sign-section.js';
import { SignedSection } from './signed-section.js';

/** Where a lot is decided about: everything it rests on first, then what is missing, then the signature. */
export function DispositionPage() {
  const { lot = '' } = useParams();
  const { data, error, refetch } = useQuery(sheetToSignQuery(lot));
  return (
    <Sheet title={`Disposition of lot ${lot}`}>
      {data ? (
        <ToldFrom record={data}>
          <DispositionSheetOf shown={data} />
        </ToldFrom>
      ) : error ? (
        <Trouble error={error} onAgain={() => void refetch()} />
      ) : (
        <Reading what={`what lot ${lot} rests on`} />
      )}
    </Sheet>
  );
}

function DispositionSheetOf({ shown }: { shown: SheetToSign }) {
  const { sheet } = shown;
  const last = sheet.dispositions.at(-1);
  const { tell } = usePrint();
  return (
    <>
      <HeadStrip
        noun="Disposition of lot"
        name={<Link to={lotAddress(sheet.lot)}>{sheet.lot}</Link>}
        of={<bdi>{sheet.product}</bdi>}
        outcome={
          last?.state === 'in force' ? (
            <Outcome word={last.outcome} large />
          ) : (
            <Outcome word="undecided" as={last ? last.state : 'not decided about'} large />
          )
        }
        sentence={sheet.evaluation ? tell(sheet.evaluation.sentence) : 'This lot was never evaluated.'}
        next={whatNext(sheet)}
        facts={[
          { term: 'Lot of', says: `${sheet.size}` },
          { term: 'Plan', says: `${sheet.plan.plan} rev. ${sheet.plan.revision}` },
          { term: 'Claimed use', says: <bdi>{sheet.use}</bdi> },
          { term: 'Evaluation', says: sheet.evaluation ? `${sheet.evaluation.number}` : 'none' },
        ]}
      />
      <EveryRunSection sheet={sheet} />
      <AroundSections sheet={sheet} />
      <Section question="What is missing?" word="Missing" aside="While anything stands here, no signature opens.">
        {sheet.missing.length === 0 ? (
          <p>
            Nothing: every run is decided and reviewed, every nonconformity is closed, the evaluation is up to date.
          </p>
        ) : (
          <ul className="notes">
            {sheet.missing.map(({ what, action }) => (
              <li key={what}>
                {tell(what)} {action}
              </li>
            ))}
          </ul>
        )}
      </Section>
      <SignSection key={shown.sha256} shown={shown} />
      <IssueSection sheet={sheet} />
      <SignedSection sheet={sheet} sha256={shown.sha256} />
    </>
  );
}

function whatNext({ missing, dispositions }: SheetToSign['sheet']): string {
  if (dispositions.at(-1)?.state === 'waits for a second decider')
    return 'a second decider, who neither recorded nor reviewed nor decided, signs what the first has decided.';
  if (missing.length > 0) return 'what is missing, below.';
  if (dispositions.length > 0) return 'nothing. It can only be changed by a new disposition.';
  return 'somebody with the duty to decide, who neither recorded nor reviewed, decides and signs.';
}
