import { useParams } from 'react-router';
import { Sheet } from '../../parts/sheet/sheet.js';
import { Reading, Trouble } from '../../parts/trouble.js';
import { ToldFrom } from '../../parts/units/reader.js';
import { MakeSheet } from '../lots/make-sheet.js';
import { OpinionsSection } from '../opinions/opinions-section.js';
import { ChecksSection } from './checks-section.js';
import { ConditionsSection } from './conditions-section.js';
import { CorrectionsSection } from './corrections-section.js';
import { DescentSection } from './descent/descent-section.js';
import { ExaminationSection } from './examination-section.js';
import { MeasuredSection } from './measured-section.js';
import { PhotosSection } from './photos/photos-section.js';
import { RawSection } from './raw-section.js';
import { ReviewSection } from './review/review-section.js';
import { RunHead } from './run-head.js';
import { SignedSection } from './signed-section.js';
import { TraceSection } from './trace-section.js';
import { type RunOnSheet, useRunSheet } from './use-run-sheet.js';
import { ValiditySection } from './validity/validity-section.js';
import { VerdictsSection } from './verdicts-section.js';

/** One run: what the specimen did, whether the record is fit to be judged, what follows from it. */
export function RunPage() {
  const { lot = '', run = '' } = useParams();
  const { sheet, error, again } = useRunSheet(lot, run);
  return (
    <Sheet title={`Run ${run}`}>
      {sheet ? (
        <ToldFrom record={sheet.answer}>
          <RunSheet {...sheet} />
        </ToldFrom>
      ) : error ? (
        <Trouble error={error} onAgain={again} />
      ) : (
        <Reading what={`run ${run}`} />
      )}
    </Sheet>
  );
}

function RunSheet(sheet: RunOnSheet) {
  return (
    <>
      <RunHead {...sheet} />
      <TraceSection {...sheet} />
      <ChecksSection {...sheet} />
      <MeasuredSection {...sheet} />
      <ExaminationSection {...sheet} />
      <PhotosSection {...sheet} />
      <ValiditySection key={sheet.record.version} {...sheet} />
      <VerdictsSection {...sheet} />
      <ReviewSection {...sheet} />
      {sheet.record.run.validity !== undefined && <OpinionsSection of="run" name={sheet.record.run.run} />}
      <DescentSection {...sheet} />
      <ConditionsSection {...sheet} />
      <RawSection {...sheet} />
      <MakeSheet of="run" name={sheet.record.run.run} zone={sheet.around.lab.zone} />
      <CorrectionsSection {...sheet} />
      <SignedSection {...sheet} />
    </>
  );
}
