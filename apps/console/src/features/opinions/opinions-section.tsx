import { Paragraph } from '@breakbook/lab';
import { useInfiniteQuery, useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { OpinionRecord } from '../../client/answers.js';
import { labQuery, opinionsQuery, peopleQuery } from '../../client/queries.js';
import { send } from '../../client/send.js';
import { useSent } from '../../client/use-sent.js';
import { Field, TextArea } from '../../parts/field.js';
import { moment } from '../../parts/moment.js';
import { Fold, Section } from '../../parts/sheet/sheet.js';
import { Who } from '../../parts/who.js';
import { AgainForm } from '../people/again-form.js';
import { useMe } from '../people/me.js';

const RENEWS = ['opinions', 'disposition'];

/** What authorised people make of the results of a lot or a run: called an opinion, and no result. */
export function OpinionsSection({ of, name }: { of: 'lot' | 'run'; name: string }) {
  const { data } = useInfiniteQuery(opinionsQuery(of, name));
  const { duties } = useMe();
  const may = duties.includes('review') || duties.includes('decide');
  const items = data?.pages.flatMap((page) => page.items) ?? [];
  return (
    <Section
      question="What do people make of it?"
      word="Opinions"
      aside="Opinions and interpretations are no results. Only whoever is authorised for the methods gives one."
    >
      {items.length === 0 && <p className="nothing">No opinion was given.</p>}
      {items.map((one) => (
        <OpinionItem key={`${one.number} ${one.version}`} one={one} may={may} />
      ))}
      {may && (
        <Fold word="Give an opinion">
          <SayOpinion of={of} name={name} />
        </Fold>
      )}
    </Section>
  );
}

function OpinionItem({ one, may }: { one: OpinionRecord; may: boolean }) {
  const { data: people = [] } = useQuery(peopleQuery);
  const { data: lab } = useQuery(labQuery);
  const [reason, setReason] = useState('');
  const { number, version, state, run, lot, evaluation, content, by, at } = one;
  const withdraw = useSent({
    send: () =>
      send('POST /api/opinions/{n}/withdrawal', {
        path: { n: `${number}` },
        body: { reason: reason.trim() },
        follows: version,
      }),
    renews: RENEWS,
  });
  return (
    <article>
      <h3>
        Opinion {number} on {run === undefined ? `lot ${lot}` : `run ${run}`}
        {state === 'withdrawn' && ', taken back'}
      </h3>
      <p>
        <bdi>{content.text}</bdi>
      </p>
      <p className="quiet">
        Basis: <bdi>{content.basis}</bdi>
        {content.spoken && ` Told by word of mouth to ${content.spoken.to} on ${content.spoken.on}.`}{' '}
        {state === 'given' ? 'Opinion of' : 'Taken back by'} <Who people={people} person={by} />,{' '}
        {moment(at, lab?.zone ?? 'UTC')}
        {evaluation !== undefined && `, on the results of evaluation ${evaluation}`}.
      </p>
      {may && state === 'given' && (
        <Fold word={`Say opinion ${number} anew, or take it back`}>
          <SayOpinion of={run === undefined ? 'lot' : 'run'} name={run ?? lot} anew={one} />
          <AgainForm
            sent={withdraw}
            button={`Take back opinion ${number}`}
            whole={Paragraph.safeParse(reason.trim()).success}
          >
            <Field label="Why it is taken back" value={reason} onChange={({ target }) => setReason(target.value)} />
          </AgainForm>
        </Fold>
      )}
    </article>
  );
}

function SayOpinion({ of, name, anew }: { of: 'lot' | 'run'; name: string; anew?: OpinionRecord }) {
  const [text, setText] = useState(anew?.content.text ?? '');
  const [basis, setBasis] = useState(anew?.content.basis ?? '');
  const [reason, setReason] = useState('');
  const said = { text: text.trim(), basis: basis.trim() };
  const sent = useSent({
    send: () =>
      anew
        ? send('PUT /api/opinions/{n}', {
            path: { n: `${anew.number}` },
            body: { reason: reason.trim(), content: { ...anew.content, ...said } },
            follows: anew.version,
          })
        : send('POST /api/opinions', { body: { [of]: name, ...said } }),
    renews: RENEWS,
    onTaken: () => {
      if (anew) return;
      setText('');
      setBasis('');
    },
  });
  const whole = [said.text, said.basis, ...(anew ? [reason.trim()] : [])].every(
    (one) => Paragraph.safeParse(one).success,
  );
  return (
    <AgainForm sent={sent} button={anew ? `Say opinion ${anew.number} anew` : 'Give this opinion'} whole={whole}>
      <TextArea label="Opinion" rows={3} value={text} onChange={({ target }) => setText(target.value)} />
      <TextArea
        label="Basis"
        hint="What it rests on beside the results: what was seen, read or known."
        rows={2}
        value={basis}
        onChange={({ target }) => setBasis(target.value)}
      />
      {anew && <Field label="Why it is said anew" value={reason} onChange={({ target }) => setReason(target.value)} />}
    </AgainForm>
  );
}
