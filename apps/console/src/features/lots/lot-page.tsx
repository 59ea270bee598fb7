import { useParams } from 'react-router';
import type { LotAnswer } from '../../client/answers.js';
import { ProblemAnswer } from '../../client/problem-answer.js';
import { useLot } from '../../client/queries.js';
import { PlanSaid } from '../../parts/plan-said.js';
import { Section, Sheet } from '../../parts/sheet/sheet.js';
import { Reading, Trouble } from '../../parts/trouble.js';
import { ToldFrom } from '../../parts/units/reader.js';
import { DocumentsOfLot } from '../documents/documents-of-lot.js';
import { LotKeepingSection } from '../keeping/lot-keeping-section.js';
import { OldResultsSection } from '../old-results/old-results-section.js';
import { OpinionsSection } from '../opinions/opinions-section.js';
import { FlagsOfLot } from '../safety-flags/flags-of-lot.js';
import { Attempts } from './attempts.js';
import { BatchesSection } from './batches-section.js';
import { DistributionSection } from './distribution-section.js';
import { HistorySection } from './history-section.js';
import { LimitsSection } from './limits-section.js';
import { LineSection } from './line-section.js';
import { LotBeforeEvaluation } from './lot-before-evaluation.js';
import { LotHead } from './lot-head.js';
import { MissingSection } from './missing-section.js';
import { PackagesSection } from './packages-section.js';
import { RetestsSection } from './retests-section.js';
import { RunsSection } from './runs-section.js';
import { SpecimensSection } from './specimens-section.js';
import { WhatIfSection } from './what-if-section.js';

/** One lot: what it will hold and how surely, what that rests on, and what does not count. */
export function LotPage() {
  const { lot = '' } = useParams();
  const { data, error, refetch } = useLot(lot);
  return (
    <Sheet title={`Lot ${lot}`}>
      {data ? (
        <ToldFrom record={data}>
          <LotSheet answer={data} />
        </ToldFrom>
      ) : isUnevaluated(error) ? (
        <LotBeforeEvaluation lot={lot} />
      ) : error ? (
        <Trouble error={error} onAgain={() => void refetch()} />
      ) : (
        <Reading what={`lot ${lot}`} />
      )}
    </Sheet>
  );
}

/** The lot is there, and nothing was said of it yet. */
function isUnevaluated(error: Error | null): boolean {
  return error instanceof ProblemAnswer && error.status === 409;
}

function LotSheet({ answer }: { answer: LotAnswer }) {
  const { lot } = answer;
  return (
    <>
      <LotHead answer={answer} />
      {lot.lines.map((line) => (
        <LineSection key={line.line} answer={answer} line={line} />
      ))}
      {lot.lines.map((line) => (
        <SpecimensSection key={line.line} answer={answer} line={line} />
      ))}
      {lot.lines.map((line) => (
        <DistributionSection key={line.line} answer={answer} line={line} />
      ))}
      <Section question="What does the plan ask for?" word="Plan">
        <PlanSaid of={answer.planInWords} />
      </Section>
      <LimitsSection answer={answer} />
      <FlagsOfLot lot={lot.lot} />
      <OpinionsSection of="lot" name={lot.lot} />
      <MissingSection answer={answer} />
      <RunsSection answer={answer} />
      <Section question="How often was it tried?" word="Attempts">
        <Attempts of={answer.attempts} />
      </Section>
      <RetestsSection lot={lot.lot} lines={answer.bundle.plan.lines} />
      <WhatIfSection answer={answer} />
      <HistorySection answer={answer} />
      <OldResultsSection of="lots" named={lot.lot} />
      <LotKeepingSection lot={lot.lot} />
      <DocumentsOfLot lot={lot.lot} />
      <BatchesSection lot={lot.lot} />
      <PackagesSection lot={lot.lot} />
    </>
  );
}
