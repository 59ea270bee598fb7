import { useState } from 'react';
import { Link } from 'react-router';
import type { DocumentCheck } from '../../client/answers.js';
import { checkDocument } from '../../client/check-document.js';
import { useSent } from '../../client/use-sent.js';
import { certificateAddress, documentSheetAddress } from '../../parts/addresses.js';
import { DropField } from '../../parts/drop-field.js';
import { FormProblem } from '../../parts/field.js';
import { Outcome } from '../../parts/marks/outcome.js';
import type { OutcomeWord } from '../../parts/marks/outcome-words.js';
import { Progress } from '../../parts/progress.js';
import { HeadStrip, Section, Sheet } from '../../parts/sheet/sheet.js';
import { FindingsSection } from './findings-section.js';
import { NotCheckedSection } from './not-checked-section.js';
import { NumbersSection } from './numbers-section.js';

/** A document that somebody holds: is it what this lab signed, and is each of its numbers worked out the same again? */
export function CheckDocumentPage() {
  const [file, setFile] = useState<File>();
  const check = useSent({ send: checkDocument, renews: [] });
  return (
    <Sheet title="Check a document">
      <HeadStrip
        noun=""
        name="Check a document"
        sentence="Is a file, to the bit, what this lab signed, and does each of its numbers come out the same again? Nothing of it is kept."
      />
      <Section question="Which file?" word="File" aside="A PDF as the lab handed it out, at most 32 MiB.">
        <DropField
          label="Drop the PDF here, or choose it"
          accept=".pdf,application/pdf"
          onFiles={([one]) => {
            if (!one) return;
            setFile(one);
            check.mutate(one);
          }}
        />
        {check.isPending && (
          <Progress says={`Checking ${file?.name ?? ''}: every byte, then every number. It may take two minutes.`} />
        )}
        <div role="status">{check.data && file && <Verdict of={check.data} file={file} />}</div>
        <FormProblem error={check.error} />
      </Section>
      {check.data && !check.isPending && (
        <>
          <FindingsSection found={check.data} />
          <NumbersSection found={check.data} />
          <NotCheckedSection found={check.data} />
        </>
      )}
    </Sheet>
  );
}

const VERDICTS: Record<DocumentCheck['verdict'], { word: OutcomeWord; as: string }> = {
  holds: { word: 'in force', as: 'It is what this lab signed' },
  'on-hold': { word: 'on hold', as: 'It is what this lab signed, and is on hold' },
  superseded: { word: 'superseded', as: 'It is what this lab signed, and was superseded since' },
  withdrawn: { word: 'withdrawn', as: 'It is what this lab signed, and was withdrawn since' },
  'unknown-key': { word: 'does not conform', as: 'It is not signed with a key that this lab stands by' },
  altered: { word: 'does not conform', as: 'It was altered since it was signed' },
  'not-recognised': { word: 'not evaluated', as: 'It is nothing that a lab signed' },
};

function Verdict({ of: { verdict, document, kept, certificate, sha256 }, file }: { of: DocumentCheck; file: File }) {
  return (
    <>
      <p>
        <Outcome {...VERDICTS[verdict]} large />
      </p>
      <p>
        <bdi>{file.name}</bdi>
        {document && (
          <>
            {' '}
            is {document.kind} <bdi>{document.number}</bdi>, revision {document.revision}
          </>
        )}
        {certificate ? (
          <>
            : <Link to={certificateAddress(certificate.number)}>certificate {certificate.number}</Link> of this lab,{' '}
            {certificate.state}
          </>
        ) : (
          kept !== undefined && (
            <>
              : <Link to={documentSheetAddress(kept)}>document {kept}</Link> of this lab
            </>
          )
        )}
        {document && '.'}
      </p>
      <p className="quiet small">
        SHA-256 of the file: <code>{sha256}</code>
      </p>
    </>
  );
}
