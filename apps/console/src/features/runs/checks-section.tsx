import type { Check } from '@breakbook/lab';
import { Outcome } from '../../parts/marks/outcome.js';
import { Section } from '../../parts/sheet/sheet.js';
import { usePrint } from '../../parts/units/reader.js';
import type { RunOnSheet } from './use-run-sheet.js';
import '../../parts/answers-list.css';

/** Is this record fit to be judged? Checks that know no limit: they propose validity, people decide it. */
export function ChecksSection({ answer: { reading } }: RunOnSheet) {
  const { checks, flags, proposedValidity } = reading;
  return (
    <Section
      question="Is this record fit to be judged?"
      word="Checks"
      aside={
        <>
          <p>
            The checks propose: <Outcome word={proposedValidity} />
          </p>
          <p>They know no limit. People decide.</p>
        </>
      }
    >
      {checks.length === 0 ? (
        <p className="quiet">The method asks for no check of this record.</p>
      ) : (
        <ul className="answers">
          {checks.map((check) => (
            <li key={`${check.check} ${check.passage}`}>
              <CheckItem check={check} />
            </li>
          ))}
        </ul>
      )}
      {flags.length > 0 && (
        <>
          <h3>Taken from the file, but to be dealt with</h3>
          <ul className="notes">
            {flags.map(({ code, detail, action }) => (
              <li key={`${code} ${detail}`}>
                {detail} {action}
              </li>
            ))}
          </ul>
        </>
      )}
    </Section>
  );
}

function CheckItem({ check: { question, outcome, finding, action, passage } }: { check: Check }) {
  const { tell } = usePrint();
  return (
    <>
      <Outcome word={outcome} as={CHECK_WORDS[outcome]} />
      <div>
        <p className="asked">
          {passage !== undefined && `Passage ${passage}: `}
          {question}
        </p>
        <p>{tell(finding)}</p>
        {action !== undefined && outcome !== 'pass' && (
          <p>
            <strong>To do:</strong> {tell(action)}
          </p>
        )}
      </div>
    </>
  );
}

/** A check passes or it does not; whether that makes the run invalid is for a person to say. */
const CHECK_WORDS: Record<Check['outcome'], string> = {
  pass: 'passes',
  flag: 'needs a look',
  fail: 'fails',
  'not evaluated': 'not evaluated',
};
