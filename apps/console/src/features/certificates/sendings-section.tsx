import { Paragraph } from '@breakbook/lab';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { CertificateRecord } from '../../client/answers.js';
import { labQuery, peopleQuery } from '../../client/queries.js';
import { send } from '../../client/send.js';
import { useSent } from '../../client/use-sent.js';
import { Field, FormProblem } from '../../parts/field.js';
import { Outcome } from '../../parts/marks/outcome.js';
import { moment } from '../../parts/moment.js';
import { Fold, Section } from '../../parts/sheet/sheet.js';
import { Table } from '../../parts/table.js';
import { Who } from '../../parts/who.js';
import { useMe } from '../people/me.js';
import { CERTIFICATE_RENEWS } from './fate-section.js';
import { notYetTold } from './not-yet-told.js';

/** Who was sent a certificate, or told what became of it. */
export function SendingsSection({ one }: { one: CertificateRecord }) {
  const { number, state: now, sent } = one;
  const untold = notYetTold(one);
  const { data: people = [] } = useQuery(peopleQuery);
  const { data: lab } = useQuery(labQuery);
  const { duties } = useMe();
  return (
    <Section
      question="Who was sent it?"
      word="Sent"
      aside="Breakbook sends nothing. What is noted here says who is to be told when it no longer stands."
    >
      <Table<CertificateRecord['sent'][number]>
        caption="Who was sent it or told of it, and how it stood then"
        columns={[
          { head: 'Who', wide: true, cell: ({ recipient }) => <bdi>{recipient}</bdi> },
          { head: 'How', wide: true, cell: ({ way }) => <bdi>{way}</bdi> },
          { head: 'It stood', cell: ({ state }) => <Outcome word={state} /> },
          { head: 'When', cell: ({ at }) => <span className="whole">{moment(at, lab?.zone ?? 'UTC')}</span> },
          { head: 'Noted by', wide: true, cell: ({ by }) => <Who people={people} person={by} /> },
        ]}
        rows={sent}
        rowKey={({ at, recipient }) => `${at} ${recipient}`}
        empty="Nobody was noted yet."
      />
      {untold.length > 0 && (
        <p>
          Not noted as told that it is {now} now: <bdi>{untold.join('; ')}</bdi>.
        </p>
      )}
      {duties.includes('issue') && (
        <Fold word="Note a sending">
          <NoteSending number={number} />
        </Fold>
      )}
    </Section>
  );
}

function NoteSending({ number }: { number: number }) {
  const [recipient, setRecipient] = useState('');
  const [way, setWay] = useState('');
  const body = { recipient: recipient.trim(), way: way.trim() };
  const sent = useSent({
    send: (_: undefined) => send('POST /api/certificates/{n}/sendings', { path: { n: `${number}` }, body }),
    renews: CERTIFICATE_RENEWS,
    onTaken: () => {
      setRecipient('');
      setWay('');
    },
  });
  const whole = Paragraph.safeParse(body.recipient).success && Paragraph.safeParse(body.way).success;
  return (
    <form
      className="form"
      onSubmit={(event) => {
        event.preventDefault();
        sent.mutate(undefined);
      }}
    >
      <Field
        label="Who was sent it, or told of it"
        value={recipient}
        onChange={({ target }) => setRecipient(target.value)}
      />
      <Field
        label="In which way"
        hint="Such as by mail, or handed over."
        value={way}
        onChange={({ target }) => setWay(target.value)}
      />
      <FormProblem error={sent.error} />
      <button type="submit" className="action" disabled={!whole || sent.isPending}>
        Note this sending
      </button>
    </form>
  );
}
