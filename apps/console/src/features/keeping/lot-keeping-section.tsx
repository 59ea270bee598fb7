import { LotKeeping } from '@breakbook/lab';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { LotKeepingRecord } from '../../client/answers.js';
import { labQuery, lotKeepingQuery, peopleQuery } from '../../client/queries.js';
import { send } from '../../client/send.js';
import { useSent } from '../../client/use-sent.js';
import { Field } from '../../parts/field.js';
import { day, moment } from '../../parts/moment.js';
import { Fold, Section } from '../../parts/sheet/sheet.js';
import { Who } from '../../parts/who.js';
import { AgainForm } from '../people/again-form.js';
import { useMe } from '../people/me.js';

/** Until when the records of a lot and the remnants of its specimens are kept. */
export function LotKeepingSection({ lot }: { lot: string }) {
  const { data } = useQuery(lotKeepingQuery(lot));
  const { data: people = [] } = useQuery(peopleQuery);
  const { data: lab } = useQuery(labQuery);
  const { duties } = useMe();
  if (!data) return null;
  const last = data.said.at(-1);
  const held = data.specimens.filter(({ holds }) => holds.length > 0).length;
  return (
    <Section
      question="How long is it kept?"
      word="Keeping"
      aside="Records are never deleted here, whatever day is said."
    >
      {last ? (
        <p>
          Records until {day(last.recordsUntil)}, remnants until {day(last.remnantsUntil)}: said by{' '}
          <Who people={people} person={last.by} />, {moment(last.at, lab?.zone ?? 'UTC')}. <bdi>{last.note}</bdi>
        </p>
      ) : (
        <p>Nobody has said until when, so no remnant of it is disposed of but as an exception.</p>
      )}
      {held > 0 && (
        <p>
          {held} of its {data.specimens.length} specimens {held === 1 ? 'is' : 'are'} on legal hold.
        </p>
      )}
      {duties.includes('decide') && (
        <Fold word="Say until when">
          <SayKeeping key={data.version} keeping={data} />
        </Fold>
      )}
    </Section>
  );
}

function SayKeeping({ keeping }: { keeping: LotKeepingRecord }) {
  const { lot, version, proposal, said } = keeping;
  const last = said.at(-1) ?? proposal;
  const [recordsUntil, setRecords] = useState(last.recordsUntil);
  const [remnantsUntil, setRemnants] = useState(last.remnantsUntil);
  const [note, setNote] = useState('');
  const body = { recordsUntil, remnantsUntil, note: note.trim() };
  const sent = useSent({
    send: () => send('PUT /api/lots/{lot}/keeping', { path: { lot }, body, follows: version }),
    renews: ['keeping', 'disposition', 'disposals'],
  });
  return (
    <>
      <ul className="notes">
        {proposal.rules.map(({ of, years, from, why }) => (
          <li key={of}>
            Proposed for {of}: {years} {years === 1 ? 'year' : 'years'} from {from}, since {why}.
          </li>
        ))}
      </ul>
      <p>{proposal.caution}</p>
      <AgainForm sent={sent} button="Keep until these days" whole={LotKeeping.safeParse(body).success}>
        <Field
          label="Records until"
          type="date"
          value={recordsUntil}
          onChange={({ target }) => setRecords(target.value)}
        />
        <Field
          label="Remnants until"
          type="date"
          value={remnantsUntil}
          onChange={({ target }) => setRemnants(target.value)}
        />
        <Field label="Why" value={note} onChange={({ target }) => setNote(target.value)} />
      </AgainForm>
    </>
  );
}
