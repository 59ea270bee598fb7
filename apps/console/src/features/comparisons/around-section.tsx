import type { Person } from '@breakbook/lab';
import { useState } from 'react';
import type { ComparisonRecord } from '../../client/answers.js';
import { send } from '../../client/send.js';
import { useSent } from '../../client/use-sent.js';
import { BesideForm } from '../../parts/beside-form.js';
import { Choice } from '../../parts/choice.js';
import { Field, Select, TextArea } from '../../parts/field.js';
import { Fold, Section } from '../../parts/sheet/sheet.js';
import { thisMinute, WhenField } from '../../parts/when-field.js';
import { useMe } from '../people/me.js';
import { ConsentsTable } from './items-section.js';

interface AroundSectionProps {
  of: ComparisonRecord;
  people: readonly Person[];
  zone: string;
}

/** Who agreed to it or was told of it; and, for whoever may, which item cannot be compared and why. */
export function AroundSection({ of, people, zone }: AroundSectionProps) {
  const { duties } = useMe();
  const may = (...some: (typeof duties)[number][]) =>
    of.state !== 'withdrawn' && some.some((duty) => duties.includes(duty));
  const { compared } = of.content;
  return (
    <Section question="Who agreed to it, or was told of it?" word="Consent">
      <ConsentsTable of={of} people={people} zone={zone} />
      {may('define', 'trace', 'compare') && (
        <Fold word="Record a consent or notice">
          <ConsentForm key={of.consents.length} comparison={of.comparison} zone={zone} />
        </Fold>
      )}
      {compared.what === 'items with a reference' && may('review', 'compare') && (
        <Fold word="Set an item aside that cannot be compared">
          <SetAsideForm key={of.setAside.length} comparison={of.comparison} items={compared.items} />
        </Fold>
      )}
    </Section>
  );
}

function ConsentForm({ comparison, zone }: { comparison: string; zone: string }) {
  const [said, setSaid] = useState({ kind: 'consent' as 'consent' | 'notice', party: '', about: '', at: thisMinute() });
  const set = (now: Partial<typeof said>) => setSaid((then) => ({ ...then, ...now }));
  const sent = useSent({
    send: (_: undefined) =>
      send('POST /api/comparisons/{comparison}/consents', {
        path: { comparison },
        body: { ...said, party: said.party.trim(), about: said.about.trim() },
      }),
    renews: ['comparisons'],
  });
  return (
    <BesideForm sent={sent} button={`Record this ${said.kind}`}>
      <Choice
        legend="What it is"
        options={[
          { value: 'consent', word: 'consent: they agreed' },
          { value: 'notice', word: 'notice: they were told' },
        ]}
        chosen={said.kind}
        onChoose={(kind) => set({ kind })}
      />
      <Field
        label="Who agreed, or was told"
        at="/party"
        value={said.party}
        onChange={({ target }) => set({ party: target.value })}
      />
      <TextArea
        label="About what"
        at="/about"
        hint="Such as: one item is tested until it breaks."
        rows={2}
        value={said.about}
        onChange={({ target }) => set({ about: target.value })}
      />
      <WhenField label="When" at="/at" value={said.at} zone={zone} onChange={(at) => set({ at })} />
    </BesideForm>
  );
}

function SetAsideForm({ comparison, items }: { comparison: string; items: readonly string[] }) {
  const [specimen, setSpecimen] = useState(items[0] ?? '');
  const [because, setBecause] = useState('');
  const sent = useSent({
    send: (_: undefined) =>
      send('POST /api/comparisons/{comparison}/set-aside', {
        path: { comparison },
        body: { specimen, because: because.trim() },
      }),
    renews: ['comparisons'],
  });
  return (
    <BesideForm sent={sent} button="Set it aside">
      <Select
        label="Item"
        at="/specimen"
        value={specimen}
        options={items.map((value) => ({ value, word: value }))}
        onChange={({ target }) => setSpecimen(target.value)}
      />
      <TextArea
        label="Why it cannot be compared"
        at="/because"
        hint="Its custody, its condition, or what happened to it before. It stays in the comparison and in the report, as level E."
        rows={2}
        value={because}
        onChange={({ target }) => setBecause(target.value)}
      />
    </BesideForm>
  );
}
