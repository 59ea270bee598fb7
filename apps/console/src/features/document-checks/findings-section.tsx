import { type DocumentCheck } from '../../client/answers.js';
import { capital } from '../../parts/capital.js';
import { Outcome } from '../../parts/marks/outcome.js';
import { Section } from '../../parts/sheet/sheet.js';
import { Table } from '../../parts/table.js';

type Finding = DocumentCheck['findings'][number];

const QUESTIONS: Record<Finding['asks'], { what: string; asks: string }> = {
  digest: { what: 'Digest', asks: 'Is every byte as it was signed?' },
  signature: { what: 'Signature', asks: 'Did this lab sign it?' },
  attachment: { what: 'Attachment', asks: 'Are the attached data those that were signed?' },
  ledger: { what: 'Ledger', asks: 'Does its content stand in a ledger?' },
  checkpoint: { what: 'Checkpoint', asks: 'Is that the ledger of this lab?' },
};

/** One line for each question that is asked of a document. */
export function FindingsSection({ found }: { found: DocumentCheck }) {
  return (
    <Section question="Is it what this lab signed?" word="Signature">
      <Table<Finding>
        caption="Each question, its answer, and what the answer rests on"
        columns={[
          { head: 'What', cell: ({ asks }) => QUESTIONS[asks].what },
          { head: 'Question', wide: true, cell: ({ asks }) => QUESTIONS[asks].asks },
          { head: 'Answer', cell: ({ holds }) => <Answer holds={holds} /> },
          { head: 'Because', wide: true, cell: ({ says }) => <bdi className="verbatim">{`${capital(says)}.`}</bdi> },
        ]}
        rows={found.findings}
        rowKey={({ asks }) => asks}
        empty="Nothing was asked."
      />
    </Section>
  );
}

function Answer({ holds }: { holds: Finding['holds'] }) {
  if (holds === null) return <Outcome word="not evaluated" as="not asked" />;
  return holds ? <Outcome word="conforms" as="yes" /> : <Outcome word="does not conform" as="no" />;
}
