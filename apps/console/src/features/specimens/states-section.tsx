import { type Person, SPECIMEN_STATES } from '@breakbook/lab';
import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import type { SpecimenStates } from '../../client/answers.js';
import { seatTaken, specimenStatesQuery } from '../../client/queries.js';
import { isSignedOut } from '../../client/read.js';
import { send } from '../../client/send.js';
import { FormProblem, TextArea } from '../../parts/field.js';
import { moment } from '../../parts/moment.js';
import { Picks } from '../../parts/picks.js';
import { Section } from '../../parts/sheet/sheet.js';
import { Table } from '../../parts/table.js';
import { Who } from '../../parts/who.js';
import { useMe } from '../people/me.js';

type SaidMove = SpecimenStates['moves'][number];

const WORDS: Record<SaidMove, { word: string; note: string }> = {
  condition: { word: 'Condition it', note: 'From when to when, in which air, at which temperature' },
  'make ready': { word: 'Make it ready', note: 'What was done and measured before the run' },
  retain: { word: 'Retain it', note: 'Where it is kept, and until when' },
  'take out': { word: 'Take it out', note: 'Why it is taken out' },
};

interface StatesSectionProps {
  specimen: string;
  people: readonly Person[];
  zone: string;
}

/** Where does the specimen stand, and what can be done with it by whoever looks? */
export function StatesSection({ specimen, people, zone }: StatesSectionProps) {
  const { duties } = useMe();
  const { data } = useQuery(specimenStatesQuery(specimen));
  if (!data) return null;
  const mine = data.moves.filter((move) => {
    const { who } = SPECIMEN_STATES.moves[move];
    return who !== 'itself' && who.some((duty) => duties.includes(duty));
  });
  return (
    <Section question="In which state is it?" word="State">
      <Table<SpecimenStates['items'][number]>
        caption="States it was put in"
        columns={[
          { head: 'State', cell: ({ state }) => state },
          { head: 'Note', wide: true, cell: ({ note }) => note },
          { head: 'By', wide: true, cell: ({ by }) => <Who people={people} person={by} /> },
          { head: 'At', cell: ({ at }) => <span className="whole">{moment(at, zone)}</span> },
        ]}
        rows={data.items}
        rowKey={({ at, state }) => `${at} ${state}`}
        empty={
          data.state === 'received'
            ? 'It is as it was received; nobody has conditioned it, made it ready or put it away.'
            : `It is ${data.state}; nobody conditioned it, made it ready or put it away.`
        }
      />
      {mine.length > 0 && <MoveForm key={data.version} states={data} moves={mine} />}
    </Section>
  );
}

function MoveForm({ states: { specimen, version }, moves }: { states: SpecimenStates; moves: SaidMove[] }) {
  const queries = useQueryClient();
  const [move, setMove] = useState<SaidMove>();
  const [note, setNote] = useState('');
  const put = useMutation({
    mutationFn: (chosen: SaidMove) =>
      send('POST /api/specimens/{specimen}/states', {
        path: { specimen },
        body: { move: chosen, note: note.trim() },
        follows: version,
      }),
    onError: (error) => {
      if (isSignedOut(error)) seatTaken(queries, null);
    },
    onSuccess: () =>
      Promise.all([
        queries.invalidateQueries({ queryKey: ['specimen', specimen] }),
        queries.invalidateQueries({ queryKey: ['specimens'] }),
        queries.invalidateQueries({ queryKey: ['lot'] }),
      ]),
  });
  const lacking = move === undefined || note.trim() === '';
  return (
    <form
      className="form wide"
      onSubmit={(event) => {
        event.preventDefault();
        if (move !== undefined && !lacking) put.mutate(move);
      }}
    >
      <Picks
        legend="What is done with it"
        options={moves.map((value) => ({ value, word: WORDS[value].word }))}
        picked={move === undefined ? [] : [move]}
        onPick={([next]) => setMove(next)}
      />
      <TextArea
        label={move === undefined ? 'Note' : WORDS[move].note}
        rows={2}
        value={note}
        onChange={({ target }) => setNote(target.value)}
      />
      <FormProblem error={put.error} />
      <button className="action" type="submit" disabled={lacking || put.isPending}>
        {move === undefined ? 'Put it in another state' : WORDS[move].word}
      </button>
    </form>
  );
}
