import type { Person } from '@breakbook/lab';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { protectedNotesQuery } from '../../client/comparison-queries.js';
import { send } from '../../client/send.js';
import { useSent } from '../../client/use-sent.js';
import { BesideForm } from '../../parts/beside-form.js';
import { Field, RefusedAt, TextArea } from '../../parts/field.js';
import { moment } from '../../parts/moment.js';
import { Picks } from '../../parts/picks.js';
import { Fold, Section } from '../../parts/sheet/sheet.js';
import { Who } from '../../parts/who.js';
import { useMe } from '../people/me.js';

interface OfSpecimen {
  specimen: string;
  people: readonly Person[];
  zone: string;
}

/** Notes that name whoever reads this as a reader. To everybody else nothing is said, nor that there is any. */
export function ProtectedNotesSection({ specimen, people, zone }: OfSpecimen) {
  const { data } = useQuery(protectedNotesQuery(specimen));
  if (!data) return null;
  return (
    <Section
      question="What may only some know of it?"
      word="Protected notes"
      aside="Nobody else is told that these are there. They stand in no report, package or export."
    >
      {data.items.map(({ title, text, readers, by, at }) => (
        <div key={`${at} ${title}`}>
          <h3>
            <bdi>{title}</bdi>
          </h3>
          <p>
            <bdi>{text}</bdi>
          </p>
          <p className="quiet small">
            <Who people={people} person={by} />, {moment(at, zone)}. Read by{' '}
            {readers.map((reader, index) => (
              <span key={reader}>
                {index > 0 && ', '}
                <Who people={people} person={reader} />
              </span>
            ))}
            .
          </p>
        </div>
      ))}
    </Section>
  );
}

export const MAY_NOTE = ['define', 'record', 'compare'] as const;

/** Where a note is written that only its readers see. */
export function WriteProtectedNote({ specimen, people }: Omit<OfSpecimen, 'zone'>) {
  const me = useMe();
  return (
    <Fold word="Write a note that only some may read">
      <NoteForm specimen={specimen} people={people} person={me.person} />
    </Fold>
  );
}

function NoteForm({ specimen, people, person }: Omit<OfSpecimen, 'zone'> & { person: string }) {
  const [title, setTitle] = useState('');
  const [text, setText] = useState('');
  const [readers, setReaders] = useState<string[]>([person]);
  const sent = useSent({
    send: (_: undefined) =>
      send('POST /api/specimens/{specimen}/protected-notes', {
        path: { specimen },
        body: { title: title.trim(), text: text.trim(), readers },
      }),
    renews: ['specimen'],
    onTaken: () => {
      setTitle('');
      setText('');
    },
  });
  return (
    <BesideForm sent={sent} button="Keep this note">
      <Field label="Title" at="/title" value={title} onChange={({ target }) => setTitle(target.value)} />
      <TextArea
        label="What must not become known"
        at="/text"
        hint="Such as a covert feature of the genuine product."
        rows={3}
        value={text}
        onChange={({ target }) => setText(target.value)}
      />
      <Picks
        legend="Who may read it; nobody else ever does, whatever their duties"
        several
        options={people.map((one) => ({ value: one.person, word: <bdi>{one.name}</bdi> }))}
        picked={readers}
        onPick={setReaders}
      />
      <RefusedAt at="/readers" />
    </BesideForm>
  );
}
