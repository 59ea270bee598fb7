import { moment } from '../../parts/moment.js';
import { Section } from '../../parts/sheet/sheet.js';
import { Who } from '../../parts/who.js';
import type { RunOnSheet } from './use-run-sheet.js';

/** Who recorded, examined and decided, and when. */
export function SignedSection({ answer: { run }, around }: RunOnSheet) {
  const { people, lab } = around;
  const { examination, readiness, validity, instants = [] } = run;
  const acts = [
    ...(readiness ? [{ what: 'Readiness confirmed', person: readiness.confirmedBy, at: readiness.at }] : []),
    { what: 'Run begun', person: run.operator, at: run.startedAt },
    ...(examination ? [{ what: 'Specimen examined', person: examination.person, at: examination.at }] : []),
    ...instants.map(({ instant, passage, at, reason, person, movedAt }) => ({
      what: `Moment of the record put at ${at} s: ${instant}${passage === undefined ? '' : ` of passage ${passage}`}. ${reason.replace(/\.$/, '')}`,
      person,
      at: movedAt,
    })),
    ...(validity
      ? [
          {
            what: `Validity decided: ${validity.validity}${validity.note === undefined ? '' : `. ${validity.note.replace(/\.$/, '')}`}`,
            person: validity.person,
            at: validity.at,
          },
        ]
      : []),
  ];
  return (
    <Section question="Who did what, and when?" word="History">
      <ol className="history">
        {acts.map(({ what, person, at }) => (
          <li key={what}>
            <time dateTime={at}>{moment(at, lab.zone)}</time>
            <p>
              {what}, by <Who people={people} person={person} />.
            </p>
          </li>
        ))}
      </ol>
    </Section>
  );
}
