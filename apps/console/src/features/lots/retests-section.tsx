import { NewRetest, type Plan, RetestGround } from '@breakbook/lab';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { Link } from 'react-router';
import type { RetestRecord } from '../../client/answers.js';
import { labQuery, peopleQuery, retestsQuery } from '../../client/queries.js';
import { needsPassphrase } from '../../client/read.js';
import { send } from '../../client/send.js';
import { useSent } from '../../client/use-sent.js';
import { runAddress } from '../../parts/addresses.js';
import { Field, FormProblem, Select, TextArea } from '../../parts/field.js';
import { moment } from '../../parts/moment.js';
import { Fold, Section } from '../../parts/sheet/sheet.js';
import { Table } from '../../parts/table.js';
import { Who } from '../../parts/who.js';
import { useMe } from '../people/me.js';
import { PassphraseAgain } from '../people/passphrase-again.js';

interface RetestsProps {
  lot: string;
  lines: Plan['lines'];
}

/** Runs beyond those that the plan asks for: each by an authorisation that says why, and is used up. */
export function RetestsSection({ lot, lines }: RetestsProps) {
  const { data, error } = useQuery(retestsQuery(lot));
  const { data: people = [] } = useQuery(peopleQuery);
  const { data: lab } = useQuery(labQuery);
  const { duties } = useMe();
  return (
    <Section
      question="Which runs beyond the plan were authorised?"
      word="Retests"
      aside="A line that has its valid runs takes no more, unless somebody who recorded nothing of the lot authorises them with a ground. Every one is counted and printed."
    >
      <FormProblem error={error} />
      {data && (
        <Table<RetestRecord>
          caption="Retests, used or not"
          columns={[
            { head: 'No.', cell: ({ number }) => number },
            { head: 'Line', cell: ({ line }) => line },
            { head: 'Runs', number: true, cell: ({ runs }) => runs },
            { head: 'Used', wide: true, cell: (one) => <Used lot={lot} of={one} /> },
            { head: 'Ground', wide: true, cell: ({ ground }) => ground },
            { head: 'Reason', wide: true, cell: ({ reason }) => <bdi>{reason}</bdi> },
            { head: 'By', wide: true, cell: ({ by }) => <Who people={people} person={by} /> },
            { head: 'At', cell: ({ at }) => <span className="whole">{moment(at, lab?.zone ?? 'UTC')}</span> },
          ]}
          rows={data.items}
          rowKey={({ number }) => String(number)}
          empty="None was authorised."
        />
      )}
      {(duties.includes('review') || duties.includes('decide')) && <Authorise lot={lot} lines={lines} />}
    </Section>
  );
}

function Used({ lot, of: { runs, used } }: { lot: string; of: RetestRecord }) {
  if (used.length === 0) return 'not used yet';
  return (
    <>
      {used.length} of {runs}:{' '}
      {used.map((run, index) => (
        <span key={run}>
          {index > 0 && ', '}
          <Link to={runAddress(lot, run)}>{run}</Link>
        </span>
      ))}
    </>
  );
}

function Authorise({ lot, lines }: RetestsProps) {
  const [line, setLine] = useState(lines[0]?.line ?? '');
  const [runs, setRuns] = useState('1');
  const [ground, setGround] = useState<RetestGround>('invalid run');
  const [reason, setReason] = useState('');
  const wanted = NewRetest.safeParse({
    line,
    runs: /^\d{1,2}$/.test(runs) ? Number(runs) : undefined,
    ground,
    reason: reason.trim(),
  });
  const authorise = useSent({
    send: (body: NewRetest) => send('POST /api/lots/{lot}/retests', { path: { lot }, body }),
    renews: ['lot', 'disposition'],
    onTaken: () => setReason(''),
  });
  const go = () => {
    if (wanted.success) authorise.mutate(wanted.data);
  };
  return (
    <Fold word="Authorise a retest">
      <form
        className="form"
        onSubmit={(event) => {
          event.preventDefault();
          go();
        }}
      >
        <p>Looking again until it holds would accept bad lots. That a result was low is no ground.</p>
        <Select
          label="Plan line"
          value={line}
          options={lines.map((one) => ({ value: one.line, word: `${one.line}. ${one.title}` }))}
          onChange={({ target }) => setLine(target.value)}
        />
        <Field
          label="So many runs, 20 at most"
          inputMode="numeric"
          value={runs}
          onChange={({ target }) => setRuns(target.value)}
        />
        <Select
          label="Ground"
          value={ground}
          options={RetestGround.options.map((value) => ({ value, word: value }))}
          onChange={({ target }) => setGround(RetestGround.parse(target.value))}
        />
        <TextArea
          label="Reason, as it is printed"
          rows={2}
          value={reason}
          onChange={({ target }) => setReason(target.value)}
        />
        <FormProblem error={needsPassphrase(authorise.error) ? null : authorise.error} />
        <button type="submit" className="action" disabled={authorise.isPending || !wanted.success}>
          Authorise this retest
        </button>
      </form>
      <PassphraseAgain error={authorise.error} onGiven={go} />
    </Fold>
  );
}
