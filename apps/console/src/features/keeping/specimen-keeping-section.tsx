import { SpecimenKeeping } from '@breakbook/lab';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { SpecimenKeepingRecord } from '../../client/answers.js';
import { specimenKeepingQuery } from '../../client/queries.js';
import { send } from '../../client/send.js';
import { useSent } from '../../client/use-sent.js';
import { Field } from '../../parts/field.js';
import { Fold, Section } from '../../parts/sheet/sheet.js';
import { AgainForm } from '../people/again-form.js';
import { useMe } from '../people/me.js';
import { keptUntilInWords, Obstacles } from './obstacles.js';

/** Until when the remnants of a specimen are kept, and what keeps them from being disposed of. */
export function SpecimenKeepingSection({ specimen }: { specimen: string }) {
  const { data } = useQuery(specimenKeepingQuery(specimen));
  const { duties } = useMe();
  if (!data) return null;
  return (
    <Section question="May it be disposed of?" word="Keeping">
      {data.state === 'disposed' ? (
        <p>It was disposed of; what is on record of it stays.</p>
      ) : (
        <>
          <p>Kept until: {keptUntilInWords(data)}.</p>
          <Obstacles of={data.obstacles} />
          {duties.includes('decide') && (
            <Fold word="Keep it until another day than its lot">
              <SayKeeping key={data.version} keeping={data} />
            </Fold>
          )}
        </>
      )}
    </Section>
  );
}

function SayKeeping({ keeping: { specimen, version, keptUntil } }: { keeping: SpecimenKeepingRecord }) {
  const [until, setUntil] = useState(keptUntil ?? '');
  const [note, setNote] = useState('');
  const body = { until, note: note.trim() };
  const sent = useSent({
    send: () => send('PUT /api/specimens/{specimen}/keeping', { path: { specimen }, body, follows: version }),
    renews: ['keeping', 'disposals'],
  });
  return (
    <AgainForm sent={sent} button="Keep until this day" whole={SpecimenKeeping.safeParse(body).success}>
      <Field label="Until" type="date" value={until} onChange={({ target }) => setUntil(target.value)} />
      <Field label="Why" value={note} onChange={({ target }) => setNote(target.value)} />
    </AgainForm>
  );
}
