import { useParams } from 'react-router';
import { type LotAnswer, type RunAnswer } from '../../client/answers.js';
import { useLot, useRun } from '../../client/queries.js';
import { Section, Sheet } from '../../parts/sheet/sheet.js';
import { Reading, Trouble } from '../../parts/trouble.js';
import { ToldFrom } from '../../parts/units/reader.js';
import { ChecksSection } from './checks-section.js';
import { ConditionsSection } from './conditions-section.js';
import { ExaminationSection } from './examination-section.js';
import { MeasuredSection } from './measured-section.js';
import { RawSection } from './raw-section.js';
import { RefusedFiles } from './refused-files.js';
import { RunHead } from './run-head.js';
import { SignedSection } from './signed-section.js';
import { TraceSection } from './trace-section.js';
import { VerdictsSection } from './verdicts-section.js';

/** A run with the records of its lot that explain it: people, method, rig. */
export interface RunOnSheet {
  answer: RunAnswer;
  lot: LotAnswer;
}

/** One run: what the specimen did, whether the record is fit to be judged, what follows from it. */
export function RunPage() {
  const { lot = '', run = '' } = useParams();
  const ofLot = useLot(lot);
  const ofRun = useRun(lot, run);
  const error = ofRun.error ?? ofLot.error;
  return (
    <Sheet title={`Run ${run}`}>
      {ofRun.data && ofLot.data ? (
        <ToldFrom record={ofRun.data}>
          <RunSheet answer={ofRun.data} lot={ofLot.data} />
        </ToldFrom>
      ) : error ? (
        <Trouble
          error={error}
          onAgain={() => {
            void ofLot.refetch();
            void ofRun.refetch();
          }}
        />
      ) : (
        <Reading what={`run ${run}`} />
      )}
    </Sheet>
  );
}

function RunSheet(sheet: RunOnSheet) {
  const { answer, lot } = sheet;
  const problems = lot.refusals.find(({ run }) => run === answer.run.run)?.problems ?? [];
  return (
    <>
      <RunHead {...sheet} />
      <TraceSection {...sheet} />
      {problems.length > 0 && (
        <Section question="Why could it not be read?" word="Refused">
          <RefusedFiles run={answer.run.run} problems={problems} />
        </Section>
      )}
      <ChecksSection {...sheet} />
      <MeasuredSection {...sheet} />
      <ExaminationSection {...sheet} />
      <VerdictsSection {...sheet} />
      <ConditionsSection {...sheet} />
      <RawSection {...sheet} />
      <SignedSection {...sheet} />
    </>
  );
}
