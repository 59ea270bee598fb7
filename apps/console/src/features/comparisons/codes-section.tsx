import type { Person } from '@breakbook/lab';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { CodeLists, ComparisonRecord } from '../../client/answers.js';
import { codesQuery } from '../../client/comparison-queries.js';
import { send } from '../../client/send.js';
import { useSent } from '../../client/use-sent.js';
import { BesideForm } from '../../parts/beside-form.js';
import { TextArea } from '../../parts/field.js';
import { moment } from '../../parts/moment.js';
import { Fold, Section } from '../../parts/sheet/sheet.js';
import { Table } from '../../parts/table.js';
import { Who } from '../../parts/who.js';
import { useMe } from '../people/me.js';

type List = CodeLists['items'][number];

interface CodesSectionProps {
  of: ComparisonRecord;
  /** Conclusions are locked: everybody may know. */
  locked: boolean;
  people: readonly Person[];
  zone: string;
}

/** Which code stands for which item: for whoever keeps the list; for everybody once conclusions are locked. */
export function CodesSection({ of, locked, people, zone }: CodesSectionProps) {
  const me = useMe();
  const { comparison, content } = of;
  const keeps = content.blind?.listKeptBy === me.person;
  const { data } = useQuery({ ...codesQuery(comparison), enabled: content.blind !== undefined && (keeps || locked) });
  if (content.blind === undefined) return null;
  if (!keeps && !locked)
    return (
      <Section question="Which item is which?" word="Codes">
        <p>
          Hidden until conclusions are locked. <Who people={people} person={content.blind.listKeptBy} /> keeps the list
          of codes.
        </p>
      </Section>
    );
  const last = data?.items.at(-1);
  return (
    <Section
      question="Which item is which?"
      word="Codes"
      aside={
        locked
          ? 'Known to everybody since conclusions were locked.'
          : 'You alone read this, before conclusions are locked.'
      }
    >
      {last ? (
        <Table<List['codes'][number]>
          caption={`List kept ${moment(last.at, zone)}`}
          columns={[
            { head: 'Code', cell: ({ code }) => code },
            { head: 'What it is', wide: true, cell: ({ identity }) => <bdi>{identity}</bdi> },
          ]}
          rows={last.codes}
          rowKey={({ code }) => code}
          empty=""
        />
      ) : (
        <p>No list is kept yet.</p>
      )}
      {keeps && !locked && (
        <Fold word={last ? 'Keep another list' : 'Keep the list'}>
          <CodesForm key={data?.items.length} of={of} last={last} />
        </Fold>
      )}
    </Section>
  );
}

function CodesForm({ of: { comparison, content }, last }: { of: ComparisonRecord; last: List | undefined }) {
  const items = content.compared.what === 'two groups' ? [] : content.compared.items;
  const [said, setSaid] = useState(() =>
    items.map((code) => ({ code, identity: last?.codes.find((one) => one.code === code)?.identity ?? '' })),
  );
  const sent = useSent({
    send: (_: undefined) =>
      send('POST /api/comparisons/{comparison}/codes', {
        path: { comparison },
        body: { codes: said.map(({ code, identity }) => ({ code, identity: identity.trim() })) },
      }),
    renews: ['comparisons'],
  });
  return (
    <BesideForm sent={sent} button="Keep this list">
      {said.map(({ code, identity }, index) => (
        <TextArea
          key={code}
          label={`What ${code} is`}
          at={`/codes/${index}`}
          rows={1}
          value={identity}
          onChange={({ target }) =>
            setSaid((then) => then.map((one) => (one.code === code ? { code, identity: target.value } : one)))
          }
        />
      ))}
    </BesideForm>
  );
}
