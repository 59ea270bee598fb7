import type { DocumentCheck } from '../../client/answers.js';
import '../../parts/answers-list.css';
import { asSentence } from '../../parts/capital.js';
import { Outcome } from '../../parts/marks/outcome.js';
import { Section } from '../../parts/sheet/sheet.js';
import { numbersInWords } from './numbers-in-words.js';

type Asked = DocumentCheck['findings'][number]['asks'] | 'numbers';

const QUESTIONS: Record<Asked, string> = {
  digest: 'Digest: is every byte as it was signed?',
  signature: 'Signature: did this lab sign it?',
  attachment: 'Attachment: are the attached data those that were signed?',
  ledger: 'Ledger: does its content stand in a ledger?',
  checkpoint: 'Checkpoint: is that the ledger of this lab?',
  numbers: 'Numbers: does each come out the same again?',
};

/** One line for each question that is asked of a document: its answer, and what the answer rests on. */
export function FindingsSection({ found }: { found: DocumentCheck }) {
  const { findings, recomputed } = found;
  const numbers = {
    asks: 'numbers' as const,
    holds: recomputed ? recomputed.count === 0 : null,
    says: recomputed ? numbersInWords(recomputed) : 'not asked; why, is told below',
  };
  return (
    <Section question="Is it what this lab signed?" word="Answers">
      <ul className="answers">
        {[...findings, numbers].map(({ asks, holds, says }) => (
          <li key={asks}>
            <Answer holds={holds} />
            <div>
              <p className="asked">{QUESTIONS[asks]}</p>
              <p className="verbatim">
                <bdi>{asSentence(says)}</bdi>
              </p>
            </div>
          </li>
        ))}
      </ul>
    </Section>
  );
}

function Answer({ holds }: { holds: boolean | null }) {
  if (holds === null) return <Outcome word="not evaluated" as="not asked" />;
  return holds ? <Outcome word="conforms" as="yes" /> : <Outcome word="does not conform" as="no" />;
}
