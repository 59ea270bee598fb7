import { printFixed } from '@breakbook/units';
import { Link } from 'react-router';
import type { RecordedAnswer } from '../../../client/answers.js';
import { runAddress, specimenAddress } from '../../../parts/addresses.js';
import { HeadStrip, Section } from '../../../parts/sheet/sheet.js';
import { Table } from '../../../parts/table.js';

export interface Recorded {
  answer: RecordedAnswer;
  /** Photos that were not taken, each with the reason. */
  photosRefused: string[];
}

/** What became of the run that was sent, and what is left to do about it. */
export function RecordedRun({ of: { answer, photosRefused }, onNext }: { of: Recorded; onNext: () => void }) {
  const { run, lot, specimen, destroyed, proposedValidity, flags, files } = answer;
  return (
    <>
      <HeadStrip
        noun="Run"
        name={run}
        of="is recorded"
        sentence={
          destroyed
            ? `Specimen ${specimen} is destroyed by it and cannot be run again. Mark the part and keep or destroy it as the plan says.`
            : `Specimen ${specimen} is not destroyed by it.`
        }
        next="somebody who did not record this run decides whether it is valid."
        actions={
          <>
            <Link className="action main" to={runAddress(lot, run)}>
              Open the run
            </Link>
            <button type="button" className="action" onClick={onNext}>
              Log the next run
            </button>
          </>
        }
        facts={[
          { term: 'Lot', says: lot },
          { term: 'Specimen', says: <Link to={specimenAddress(specimen)}>{specimen}</Link> },
          { term: 'The checks propose', says: proposedValidity },
        ]}
      />
      {photosRefused.length > 0 && (
        <Section question="Which photos were not taken?" word="Photos">
          <ul className="notes">
            {photosRefused.map((said) => (
              <li key={said}>{said}</li>
            ))}
          </ul>
        </Section>
      )}
      {flags.length > 0 && (
        <Section
          question="What is to be dealt with?"
          word="Flags"
          aside="Taken, and shown to whoever decides validity."
        >
          <ul className="notes">
            {flags.map(({ code, detail, action }) => (
              <li key={`${code} ${detail}`}>
                {detail} {action}
              </li>
            ))}
          </ul>
        </Section>
      )}
      <Section question="Which bytes were kept?" word="Files">
        <Table
          caption="Files, kept bit for bit"
          columns={[
            { head: 'File', cell: ({ name }) => <bdi>{name}</bdi> },
            { head: 'Bytes', number: true, cell: ({ bytes }) => printFixed(bytes, 0) },
            { head: 'SHA-256', wide: true, cell: ({ sha256 }) => <code>{sha256}</code> },
          ]}
          rows={files}
          rowKey={({ name }) => name}
          empty="No file: the values were keyed."
        />
      </Section>
    </>
  );
}
