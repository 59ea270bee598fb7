import { Link } from 'react-router';
import { lotAddress } from '../../parts/addresses.js';
import { asSentence } from '../../parts/capital.js';
import { Outcome } from '../../parts/marks/outcome.js';
import { moment } from '../../parts/moment.js';
import { HeadStrip } from '../../parts/sheet/sheet.js';
import { Who } from '../../parts/who.js';
import { type RunOnSheet } from './run-page.js';

export function RunHead({ answer, lot: { bundle, lot } }: RunOnSheet) {
  const { run, specimen, judgement } = answer;
  const { people, lab, plan, methods } = bundle;
  const line = plan.lines.find((one) => one.line === run.planLine);
  const method = methods.find((one) => one.method === run.method && one.revision === run.methodRevision);
  const entry = lot.lines.flatMap(({ entries }) => entries).find((one) => one.run === run.run);
  const validity = run.validity?.validity ?? 'not decided';
  return (
    <HeadStrip
      noun="Run"
      name={run.run}
      of={
        <>
          specimen {specimen.specimen}, lot <Link to={lotAddress(bundle.lot.lot)}>{bundle.lot.lot}</Link>
        </>
      }
      outcome={<Outcome word={validity} as={VALIDITY_WORDS[validity]} large />}
      sentence={judgement?.validityReason === undefined ? undefined : asSentence(judgement.validityReason)}
      next={nextOf(answer, people, entry)}
      facts={[
        { term: 'Serial', says: <bdi>{specimen.serial ?? `none: ${specimen.noSerialReason}`}</bdi> },
        { term: 'Origin', says: specimen.origin },
        { term: 'Plan line', says: `${run.planLine}: ${line?.title ?? 'unknown to the plan'}` },
        { term: 'Method', says: `${run.method} rev. ${run.methodRevision}: ${method?.title ?? 'not at hand'}` },
        { term: 'Began', says: `${moment(run.startedAt, lab.zone)} (${lab.zone.replaceAll('_', ' ')})` },
        { term: 'Operator', says: <Who people={people} person={run.operator} /> },
      ]}
    />
  );
}

const VALIDITY_WORDS = {
  valid: 'valid run',
  'valid with deviation': 'valid run, with deviation',
  invalid: 'invalid run',
  void: 'void: entered by mistake',
  'not decided': 'validity not decided',
} as const;

function nextOf(
  answer: RunOnSheet['answer'],
  people: RunOnSheet['lot']['bundle']['people'],
  entry: Parameters<typeof standing>[0],
) {
  if (answer.reading === null && answer.run.files.length > 0)
    return 'its files are read again once the layout or the record is put right; until then the run is not judged.';
  return answer.run.validity ? standing(entry) : <ToDecide answer={answer} people={people} />;
}

function standing(entry: { inClaim: boolean; because: string } | undefined): string {
  if (!entry) return 'nothing: this run is on no line of the plan.';
  return entry.inClaim
    ? 'nothing: the run is decided and stands in the claim of its plan line.'
    : `nothing: the run is decided and stays out of the claim. ${asSentence(entry.because)}`;
}

/** Before validity is decided, this sheet shows no limit, verdict or margin: whoever decides must not see them. */
function ToDecide({
  answer: { run },
  people,
}: {
  answer: RunOnSheet['answer'];
  people: RunOnSheet['lot']['bundle']['people'];
}) {
  const free = people.filter(({ person, duties }) => duties.includes('review') && person !== run.operator);
  return (
    <>
      someone who did not record this run decides its validity from the trace and the checks below. Limits and verdicts
      are shown after that.{' '}
      {free.length > 0 && (
        <>
          Open to{' '}
          {free.map(({ person, name }, index) => (
            <span key={person}>
              {index > 0 && ', '}
              <bdi>{name}</bdi>
            </span>
          ))}
          .
        </>
      )}
    </>
  );
}
