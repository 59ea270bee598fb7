import type { Person } from '@breakbook/lab';
import { Link } from 'react-router';
import { lotAddress, specimenAddress } from '../../parts/addresses.js';
import { asSentence } from '../../parts/capital.js';
import { Outcome } from '../../parts/marks/outcome.js';
import { moment } from '../../parts/moment.js';
import { HeadStrip } from '../../parts/sheet/sheet.js';
import { Who } from '../../parts/who.js';
import type { RunOnSheet } from './use-run-sheet.js';

export function RunHead({ answer, record, around }: RunOnSheet) {
  const { run, specimen, judgement } = answer;
  const { people, lab, line, method, entry, lot } = around;
  const validity = run.validity?.validity ?? 'not decided';
  return (
    <HeadStrip
      noun="Run"
      name={run.run}
      of={
        <>
          specimen <Link to={specimenAddress(specimen.specimen)}>{specimen.specimen}</Link>, lot{' '}
          <Link to={lotAddress(lot)}>{lot}</Link>
        </>
      }
      outcome={<Outcome word={validity} as={VALIDITY_WORDS[validity]} large />}
      sentence={judgement.validityReason === undefined ? undefined : asSentence(judgement.validityReason)}
      next={run.validity ? standing(entry) : <ToDecide record={record} people={people} />}
      facts={[
        { term: 'Serial', says: <bdi>{specimen.serial ?? `none: ${specimen.noSerialReason}`}</bdi> },
        { term: 'Origin', says: specimen.origin },
        { term: 'Plan line', says: `${run.planLine}: ${line?.title ?? 'unknown to the plan'}` },
        { term: 'Method', says: `${run.method} rev. ${run.methodRevision}: ${method.title}` },
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

function standing(entry: RunOnSheet['around']['entry']): string {
  if (!entry) return 'the run is decided, and enters the claim of its plan line when its lot is evaluated.';
  return entry.inClaim
    ? 'nothing: the run is decided and stands in the claim of its plan line.'
    : `nothing: the run is decided and stays out of the claim. ${asSentence(entry.because)}`;
}

/** Before validity is decided, this sheet shows no limit, verdict or margin: whoever decides must not see them. */
function ToDecide({ record, people }: { record: RunOnSheet['record']; people: readonly Person[] }) {
  const made = new Set([record.recordedBy, record.run.operator]);
  const free = people.filter(({ person, duties }) => duties.includes('review') && !made.has(person));
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
