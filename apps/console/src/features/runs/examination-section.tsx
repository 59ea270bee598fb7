import { isNotEvaluated } from '@breakbook/lab';
import { moment } from '../../parts/moment.js';
import { Facts, Section } from '../../parts/sheet/sheet.js';
import { usePrint } from '../../parts/units/reader.js';
import { Who } from '../../parts/who.js';
import type { RunOnSheet } from './use-run-sheet.js';

/** What was found on the specimen after the run, and what that makes of the measured value. */
export function ExaminationSection({ answer: { run, judgement }, around }: RunOnSheet) {
  const { tell, amount } = usePrint();
  const { examination } = run;
  const { method } = around;
  const meaning = (code: string) => method?.failureModes.find((one) => one.code === code)?.meaning;
  // Results on which the examination has no bearing are taken as recorded, and stand under "What was measured?".
  const bearing = judgement.results.filter(
    ({ mode, value }) => mode !== undefined || isNotEvaluated(value) || value.kind !== 'exact',
  );
  return (
    <Section
      question="What was found on the specimen?"
      word="Found"
      aside={
        examination && (
          <>
            <Who people={around.people} person={examination.person} />, {moment(examination.at, around.lab.zone)}
          </>
        )
      }
    >
      {examination ? (
        <>
          <Facts
            of={[
              { term: 'The run ended because', says: examination.endReason },
              { term: 'The part was found', says: examination.partSound },
              ...examination.modes.map(({ code, place }, index) => ({
                term: index === 0 ? 'What came first' : 'Then',
                says: (
                  <>
                    {code}: {meaning(code) ?? 'a mode this method does not know'}
                    {place !== undefined && <>, {place}</>}
                  </>
                ),
              })),
            ]}
          />
          {examination.note !== undefined && <p className="verbatim">{examination.note}</p>}
        </>
      ) : (
        <p>
          Nobody has recorded an examination of this specimen. Without it, it is not known what gave way, and values
          that depend on it cannot be evaluated.
        </p>
      )}
      {bearing.length > 0 && (
        <ul className="notes">
          {bearing.map(({ characteristic, title, value, unit, uncertainty, because }) => (
            <li key={characteristic}>
              {title}:{' '}
              {isNotEvaluated(value)
                ? 'not evaluated'
                : amount(value, unit, uncertainty ? { uncertainty: uncertainty.expanded } : {})}
              , because {tell(because)}.
            </li>
          ))}
        </ul>
      )}
    </Section>
  );
}
