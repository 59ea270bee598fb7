import { CompetenceLevel, NewCompetence } from '@breakbook/lab';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { CompetenceRecord } from '../../client/answers.js';
import { competencesQuery, labQuery, methodsQuery, peopleQuery } from '../../client/queries.js';
import { needsPassphrase } from '../../client/read.js';
import { send } from '../../client/send.js';
import { useSent } from '../../client/use-sent.js';
import { Field, FormProblem, Select, TextArea } from '../../parts/field.js';
import { day, moment } from '../../parts/moment.js';
import { Fold, Section } from '../../parts/sheet/sheet.js';
import { Table } from '../../parts/table.js';
import { Who } from '../../parts/who.js';
import { clockIn } from '../../parts/zoned.js';
import { useMe } from './me.js';
import { PassphraseAgain } from './passphrase-again.js';

/** For which revision of which method somebody is trained or authorised, until when, and who says so. */
export function CompetenceSection({ person }: { person: string }) {
  const { data, error } = useQuery(competencesQuery(person));
  const { data: people = [] } = useQuery(peopleQuery);
  const { data: lab } = useQuery(labQuery);
  const me = useMe();
  const zone = lab?.zone ?? 'UTC';
  const today = clockIn(zone, Date.now()).slice(0, 10);
  const may = (me.duties.includes('review') || me.duties.includes('define')) && me.person !== person;
  return (
    <Section
      question="Which methods may they run?"
      word="Competence"
      aside="Only an authorisation that has not ended lets somebody run alone. It counts from the day it was recorded; a run outside it is flagged to whoever reviews it."
    >
      <FormProblem error={error} />
      {data && (
        <Table<CompetenceRecord>
          caption="Everything said of it, the last first"
          columns={[
            { head: 'Method', cell: ({ method, revision }) => `${method} rev. ${revision}` },
            { head: 'Standing', wide: true, cell: (one) => standingOf(one, today) },
            { head: 'What it rests on', wide: true, cell: ({ note }) => <bdi>{note}</bdi> },
            { head: 'By', wide: true, cell: ({ by }) => <Who people={people} person={by} /> },
            { head: 'At', cell: ({ at }) => <span className="whole">{moment(at, zone)}</span> },
          ]}
          rows={data.items.toReversed()}
          rowKey={({ method, revision, at }) => `${method} ${revision} ${at}`}
          empty="Nothing is recorded, so every run of theirs is flagged."
        />
      )}
      {may && <Say person={person} today={today} />}
    </Section>
  );
}

function standingOf({ level, until, current }: CompetenceRecord, today: string): string {
  if (!current) return `${level}${until === undefined ? '' : ` until ${day(until)}`}, replaced by a later word`;
  if (until === undefined) return level;
  return until < today ? `authorised, ended on ${day(until)}` : `authorised until ${day(until)}`;
}

function Say({ person, today }: { person: string; today: string }) {
  const { data: methods = [] } = useQuery(methodsQuery);
  const [method, setMethod] = useState('');
  const [level, setLevel] = useState<CompetenceLevel>('authorised');
  const [until, setUntil] = useState('');
  const [note, setNote] = useState('');
  const revision = methods.find(({ key }) => key === method)?.content.revision;
  const wanted = NewCompetence.safeParse({
    method,
    revision,
    level,
    ...(level === 'authorised' ? { until } : {}),
    note: note.trim(),
  });
  const say = useSent({
    send: (body: NewCompetence) => send('POST /api/people/{person}/competences', { path: { person }, body }),
    renews: ['people'],
    onTaken: () => setNote(''),
  });
  const go = () => {
    if (wanted.success) say.mutate(wanted.data);
  };
  return (
    <Fold word="Record or end a competence">
      <form
        className="form"
        onSubmit={(event) => {
          event.preventDefault();
          go();
        }}
      >
        <Select
          label="Method, in its last revision"
          value={method}
          options={[
            { value: '', word: 'choose' },
            ...methods.map(({ key, content }) => ({ value: key, word: `${key} rev. ${content.revision}` })),
          ]}
          onChange={({ target }) => setMethod(target.value)}
        />
        <Select
          label="They are"
          value={level}
          options={CompetenceLevel.options.map((value) => ({
            value,
            word: value === 'withdrawn' ? 'withdrawn: it ends today' : value,
          }))}
          onChange={({ target }) => setLevel(CompetenceLevel.parse(target.value))}
        />
        {level === 'authorised' && (
          <Field
            label="Until and with"
            type="date"
            min={today}
            value={until}
            onChange={({ target }) => setUntil(target.value)}
          />
        )}
        <TextArea
          label="What it rests on"
          rows={2}
          hint="Such as runs observed, a comparison with a trained person, or why it ends."
          value={note}
          onChange={({ target }) => setNote(target.value)}
        />
        <FormProblem error={needsPassphrase(say.error) ? null : say.error} />
        <button type="submit" className="action" disabled={say.isPending || !wanted.success}>
          Record it
        </button>
      </form>
      <PassphraseAgain error={say.error} onGiven={go} />
    </Fold>
  );
}
