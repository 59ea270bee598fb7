import { NewLegalHold, Paragraph } from '@breakbook/lab';
import { useInfiniteQuery, useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { LegalHoldRecord } from '../../client/answers.js';
import { labQuery, legalHoldsQuery, peopleQuery } from '../../client/queries.js';
import { send } from '../../client/send.js';
import { useSent } from '../../client/use-sent.js';
import { Field, FormProblem, TextArea } from '../../parts/field.js';
import { moment } from '../../parts/moment.js';
import { Fold, Section } from '../../parts/sheet/sheet.js';
import { Who } from '../../parts/who.js';
import { namesIn } from '../nonconformities/names-in.js';
import { AgainForm } from '../people/again-form.js';
import { useMe } from '../people/me.js';

const RENEWS = ['legal holds', 'keeping', 'disposals', 'specimen', 'specimens', 'disposition'];

/** What must stay as it is, whatever day was said for it. */
export function LegalHoldsSection() {
  const { data } = useInfiniteQuery(legalHoldsQuery);
  const { duties } = useMe();
  const items = data?.pages.flatMap((page) => page.items) ?? [];
  return (
    <Section
      question="What is on legal hold?"
      word="Legal holds"
      aside="What a hold covers is neither run nor disposed of. Another person than placed it lifts it."
    >
      {items.length === 0 && <p className="nothing">Nothing is.</p>}
      {items.map((hold) => (
        <HoldItem key={`${hold.number} ${hold.state}`} hold={hold} />
      ))}
      {['review', 'decide', 'audit'].some((duty) => duties.includes(duty as 'audit')) && (
        <Fold word="Place a legal hold">
          <PlaceForm />
        </Fold>
      )}
    </Section>
  );
}

function HoldItem({ hold }: { hold: LegalHoldRecord }) {
  const { data: people = [] } = useQuery(peopleQuery);
  const { data: lab } = useQuery(labQuery);
  const { duties, person } = useMe();
  const [reason, setReason] = useState('');
  const { number, state, reference, lots, specimens, by, at, lifted } = hold;
  const zone = lab?.zone ?? 'UTC';
  const sent = useSent({
    send: () =>
      send('POST /api/legal-holds/{n}/lifting', { path: { n: `${number}` }, body: { reason: reason.trim() } }),
    renews: RENEWS,
  });
  return (
    <article>
      <h3>
        Legal hold {number}, {state}
      </h3>
      <p>
        <bdi>{reference}</bdi>: <bdi>{hold.reason}</bdi> Covers{' '}
        {[...lots.map((lot) => `lot ${lot}`), ...specimens.map((one) => `specimen ${one}`)].join(', ')}.
      </p>
      <p className="quiet">
        Placed by <Who people={people} person={by} />, {moment(at, zone)}.
        {lifted && (
          <>
            {' '}
            Lifted by <Who people={people} person={lifted.by} />, {moment(lifted.at, zone)}: <bdi>{lifted.reason}</bdi>
          </>
        )}
      </p>
      {state === 'in force' && duties.includes('decide') && by !== person && (
        <Fold word={`Lift legal hold ${number}`}>
          <AgainForm sent={sent} button="Lift it" whole={Paragraph.safeParse(reason.trim()).success}>
            <Field label="Who released it, and how" value={reason} onChange={({ target }) => setReason(target.value)} />
          </AgainForm>
        </Fold>
      )}
    </article>
  );
}

function PlaceForm() {
  const [reference, setReference] = useState('');
  const [reason, setReason] = useState('');
  const [lots, setLots] = useState('');
  const [specimens, setSpecimens] = useState('');
  const body = {
    reference: reference.trim(),
    reason: reason.trim(),
    lots: namesIn(lots),
    specimens: namesIn(specimens),
  };
  const sent = useSent({
    send: () => send('POST /api/legal-holds', { body }),
    renews: RENEWS,
    onTaken: () => {
      for (const clear of [setReference, setReason, setLots, setSpecimens]) clear('');
    },
  });
  return (
    <form
      className="form"
      onSubmit={(event) => {
        event.preventDefault();
        sent.mutate(undefined);
      }}
    >
      <Field
        label="Reference"
        hint="Such as the file number of counsel."
        value={reference}
        onChange={({ target }) => setReference(target.value)}
      />
      <TextArea label="Reason" rows={2} value={reason} onChange={({ target }) => setReason(target.value)} />
      <Field
        label="Lots it covers"
        hint="By their names, with blanks between; every specimen of them."
        value={lots}
        onChange={({ target }) => setLots(target.value)}
      />
      <Field label="Specimens it covers" value={specimens} onChange={({ target }) => setSpecimens(target.value)} />
      <FormProblem error={sent.error} />
      <button type="submit" className="action" disabled={!NewLegalHold.safeParse(body).success || sent.isPending}>
        Place the hold
      </button>
    </form>
  );
}
