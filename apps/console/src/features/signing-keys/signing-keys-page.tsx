import { Line } from '@breakbook/lab';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { KeyList, SigningKeys } from '../../client/answers.js';
import { signingKeysQuery } from '../../client/document-queries.js';
import { labQuery } from '../../client/queries.js';
import { send } from '../../client/send.js';
import { useSent } from '../../client/use-sent.js';
import { Field, Select } from '../../parts/field.js';
import { Outcome } from '../../parts/marks/outcome.js';
import { moment } from '../../parts/moment.js';
import { HeadStrip, Section, Sheet } from '../../parts/sheet/sheet.js';
import { Table } from '../../parts/table.js';
import { Reading, Trouble } from '../../parts/trouble.js';
import { AgainForm } from '../people/again-form.js';
import { useMe } from '../people/me.js';

const RENEWS = ['signing keys'];

/** The pairs of keys that the lab signs its documents with. */
export function SigningKeysPage() {
  const { data, error, refetch } = useQuery(signingKeysQuery);
  return (
    <Sheet title="Signing keys">
      {data ? (
        <KeysSheet list={data} />
      ) : error ? (
        <Trouble error={error} onAgain={() => void refetch()} />
      ) : (
        <Reading what="the signing keys" />
      )}
    </Sheet>
  );
}

function KeysSheet({ list: { lab, keys, ledger } }: { list: KeyList }) {
  const { duties } = useMe();
  const administers = duties.includes('administer');
  const trusted = keys.filter(({ revoked }) => revoked === undefined);
  return (
    <>
      <HeadStrip
        noun=""
        name="Signing keys"
        of={`${keys.length} ${keys.length === 1 ? 'pair' : 'pairs'}`}
        sentence="What the lab signs its documents with. The private halves never leave the machine; the public ones are handed out to whoever checks a document."
        next={
          keys.some(inUse)
            ? 'nothing, as long as nobody else had the private halves.'
            : 'a pair is made when the next document is signed.'
        }
      />
      <Section question="Which pairs are there?" word="Pairs">
        <KeysTable keys={keys} />
      </Section>
      <Section
        question="Where are the public halves?"
        word="Public keys"
        aside="Anybody may have them. Whoever checks a document keeps them, so that no one can hand out others later."
      >
        <p>
          <a href={`/api/keys/${lab.id}`}>The list of them</a>, as <code>breakbook verify --keys</code> reads it. Keys
          of the ledger:
        </p>
        <ul className="notes">
          {ledger.map((key) => (
            <li key={key}>
              <code>{key}</code>
            </li>
          ))}
        </ul>
      </Section>
      {administers && (
        <Section
          question="Is it time for a new pair?"
          word="New pair"
          aside="What the pair before it signed holds as it did. A key with a certificate from elsewhere is put into the folder of keys first."
        >
          <NewPair />
        </Section>
      )}
      {administers && trusted.length > 0 && (
        <Section
          question="Did somebody else have a key?"
          word="Revocation"
          aside="This cannot be undone. Every document that the pair signed is refused by whoever checks it from then on, and what must stand is signed again."
        >
          <Revoke keys={trusted} />
        </Section>
      )}
    </>
  );
}

function inUse({ until, revoked }: SigningKeys): boolean {
  return until === undefined && revoked === undefined;
}

function KeysTable({ keys }: { keys: readonly SigningKeys[] }) {
  const { data: lab } = useQuery(labQuery);
  const zone = lab?.zone ?? 'UTC';
  return (
    <Table<SigningKeys>
      caption="Pairs of keys, the newest first"
      columns={[
        { head: 'Pair', cell: ({ number }) => number },
        { head: 'Stands', wide: true, cell: (pair) => <Standing pair={pair} zone={zone} /> },
        { head: 'From', cell: ({ from }) => <span className="whole">{moment(from, zone)}</span> },
        {
          head: 'Until',
          cell: ({ until }) => (until === undefined ? 'no end' : <span className="whole">{moment(until, zone)}</span>),
        },
        { head: 'Key of the data', wide: true, cell: ({ data }) => <code>{data.kid}</code> },
      ]}
      rows={keys.toReversed()}
      rowKey={({ number }) => String(number)}
      empty="None was made yet. The first pair is made when the first document is signed."
    />
  );
}

function Standing({ pair, zone }: { pair: SigningKeys; zone: string }) {
  const { revoked } = pair;
  if (inUse(pair)) return <Outcome word="in force" as="in use" />;
  if (!revoked) return <Outcome word="superseded" as="retired; what it signed holds" />;
  return (
    <>
      <Outcome word="withdrawn" as="revoked" />
      <span className="quiet small under">
        {moment(revoked.at, zone)}: <bdi>{revoked.because}</bdi>
      </span>
    </>
  );
}

function NewPair() {
  const [reason, setReason] = useState('');
  const sent = useSent({
    send: (_: undefined) => send('POST /api/signing-keys', { body: { reason: reason.trim() } }),
    renews: RENEWS,
    onTaken: () => setReason(''),
  });
  return (
    <AgainForm sent={sent} button="Make a new pair" whole={Line.safeParse(reason.trim()).success}>
      <p>After this the lab signs with the new pair, and the one in use now is retired.</p>
      <Field label="Why a new pair" value={reason} onChange={({ target }) => setReason(target.value)} />
    </AgainForm>
  );
}

function Revoke({ keys }: { keys: readonly SigningKeys[] }) {
  const [number, setNumber] = useState('');
  const [reason, setReason] = useState('');
  const sent = useSent({
    send: (_: undefined) =>
      send('POST /api/signing-keys/{n}/revocation', { path: { n: number }, body: { reason: reason.trim() } }),
    renews: RENEWS,
    onTaken: () => {
      setNumber('');
      setReason('');
    },
  });
  return (
    <AgainForm
      sent={sent}
      button={number === '' ? 'Choose a pair first' : `Revoke pair ${number}`}
      whole={number !== '' && Line.safeParse(reason.trim()).success}
    >
      <p>After this nothing that the pair signed is believed any more, by anybody who has the public keys.</p>
      <Select
        label="Pair"
        options={[
          { value: '', word: 'none chosen' },
          ...keys.map((pair) => ({ value: `${pair.number}`, word: `${pair.number}${inUse(pair) ? ', in use' : ''}` })),
        ]}
        value={number}
        onChange={({ target }) => setNumber(target.value)}
      />
      <Field
        label="Why it is not to be believed"
        hint="It is published with the keys."
        value={reason}
        onChange={({ target }) => setReason(target.value)}
      />
    </AgainForm>
  );
}
