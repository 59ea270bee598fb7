import { Line, Paragraph } from '@breakbook/lab';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { outsideIdentityQuery } from '../../client/queries.js';
import { needsPassphrase } from '../../client/read.js';
import { send } from '../../client/send.js';
import { useSent } from '../../client/use-sent.js';
import { Field, FormProblem } from '../../parts/field.js';
import { Facts, Fold, Section } from '../../parts/sheet/sheet.js';
import { useMe } from './me.js';
import { PassphraseAgain } from './passphrase-again.js';

/** By what name outside somebody may sign in, where the lab takes the word of a provider. */
export function OutsideIdentitySection({ person }: { person: string }) {
  const { data, error } = useQuery(outsideIdentityQuery(person));
  const { duties } = useMe();
  const may = duties.includes('administer');
  return (
    <Section
      question="By what name outside may they sign in?"
      word="Outside identity"
      aside="Where the lab takes the word of a provider. Duties stay the lab’s, and what is done in somebody’s name still asks for their own passphrase."
    >
      <FormProblem error={error} />
      {data?.identity && (
        <Facts
          of={[
            { term: 'Provider', says: <bdi>{data.identity.issuer}</bdi> },
            { term: 'Called there', says: <bdi>{data.identity.subject}</bdi> },
          ]}
        />
      )}
      {data && !data.identity && <p className="quiet">By none: they sign in with their passphrase.</p>}
      {may && data && (data.identity ? <End person={person} /> : <LinkTo person={person} />)}
    </Section>
  );
}

function LinkTo({ person }: { person: string }) {
  const [said, setSaid] = useState({ issuer: '', subject: '', reason: '' });
  const field = (name: keyof typeof said) => ({
    value: said[name],
    onChange: ({ target }: { target: { value: string } }) => setSaid({ ...said, [name]: target.value }),
    required: true,
  });
  const link = useSent({
    send: (body: typeof said) => send('POST /api/people/{person}/outside-identity', { path: { person }, body }),
    renews: ['people'],
  });
  const go = () => link.mutate({ issuer: said.issuer.trim(), subject: said.subject, reason: said.reason.trim() });
  const whole =
    /^https?:\/\//.test(said.issuer.trim()) &&
    Line.safeParse(said.subject).success &&
    Paragraph.safeParse(said.reason.trim()).success;
  return (
    <Fold word="Link to a name outside">
      <form
        className="form"
        onSubmit={(event) => {
          event.preventDefault();
          go();
        }}
      >
        <p>After that whoever signs in there under this name is this person here. Their sessions end.</p>
        <Field
          label="Provider, by its address"
          hint="Letter by letter as it names itself, such as https://id.example"
          inputMode="url"
          {...field('issuer')}
        />
        <Field label="What it calls them" hint="The subject, letter by letter." {...field('subject')} />
        <Field label="Reason" {...field('reason')} />
        <FormProblem error={needsPassphrase(link.error) ? null : link.error} />
        <button type="submit" className="action" disabled={link.isPending || !whole}>
          Link {person}
        </button>
      </form>
      <PassphraseAgain error={link.error} onGiven={go} />
    </Fold>
  );
}

function End({ person }: { person: string }) {
  const [reason, setReason] = useState('');
  const end = useSent({
    send: (why: string) =>
      send('POST /api/people/{person}/outside-identity/ending', { path: { person }, body: { reason: why } }),
    renews: ['people'],
  });
  const go = () => end.mutate(reason.trim());
  return (
    <Fold word="End the link">
      <form
        className="form"
        onSubmit={(event) => {
          event.preventDefault();
          go();
        }}
      >
        <p>After that they sign in with their passphrase alone. Their sessions end.</p>
        <Field label="Reason" value={reason} onChange={({ target }) => setReason(target.value)} required />
        <FormProblem error={needsPassphrase(end.error) ? null : end.error} />
        <button type="submit" className="action" disabled={end.isPending || !Line.safeParse(reason.trim()).success}>
          End the link of {person}
        </button>
      </form>
      <PassphraseAgain error={end.error} onGiven={go} />
    </Fold>
  );
}
