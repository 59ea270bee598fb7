import { LossOfPressure, type TraceEvent } from '@breakbook/lab';
import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import type { RunRecord } from '../../../client/answers.js';
import { seatTaken } from '../../../client/queries.js';
import { isSignedOut } from '../../../client/read.js';
import { send } from '../../../client/send.js';
import { Choice } from '../../../parts/choice.js';
import { Field, FormProblem, Select, TextArea } from '../../../parts/field.js';
import { typedNumber } from '../log/typed-number.js';
import '../zoom/trace-zoom.css';
import { momentName } from './moments-table.js';
import { type Movable, standing } from './movable.js';

interface MoveMomentProps {
  record: RunRecord;
  lot: string;
  movable: readonly Movable[];
  chosen: Movable;
  onChoose: (key: string) => void;
  /** Moments marked in the same record, to put this one on. */
  marked: readonly TraceEvent[];
  /** Seconds as typed, or as taken from the trace. */
  at: string;
  onAt: (at: string) => void;
}

/** Confirms a proposed moment, or puts it where a person says, with the reason. */
export function MoveMoment({ record, lot, movable, chosen, onChoose, marked, at, onAt }: MoveMomentProps) {
  const queries = useQueryClient();
  const { run } = record.run;
  const [lossSaid, setLoss] = useState<LossOfPressure>();
  const [reason, setReason] = useState('');
  const loss = lossSaid ?? chosen.loss ?? 'burst';
  const move = useMutation({
    mutationFn: (to: number | 'as proposed') =>
      send('POST /api/runs/{run}/instants', {
        path: { run },
        body: {
          instant: chosen.instant,
          ...(chosen.passage === undefined ? {} : { passage: chosen.passage }),
          at: to,
          ...(to !== 'as proposed' && chosen.asksLoss ? { loss } : {}),
          reason: reason.trim(),
        },
        follows: record.version,
      }),
    onError: (error) => {
      if (isSignedOut(error)) seatTaken(queries, null);
    },
    onSuccess: () =>
      Promise.all([
        queries.invalidateQueries({ queryKey: ['run', run] }),
        queries.invalidateQueries({ queryKey: ['runs'] }),
        queries.invalidateQueries({ queryKey: ['lot', lot] }),
      ]),
  });
  const typed = typedNumber(at);
  const missing = 'said' in typed ? typed.said : reason.trim() === '' ? 'A reason says what you saw.' : undefined;
  return (
    <form
      className="form wide"
      onSubmit={(event) => {
        event.preventDefault();
        if ('value' in typed && missing === undefined) move.mutate(typed.value);
      }}
    >
      {movable.length > 1 && (
        <Select
          label="Moment"
          value={chosen.key}
          onChange={({ target }) => onChoose(target.value)}
          options={movable.map(({ key, word }) => ({ value: key, word }))}
        />
      )}
      <Field
        label={`${chosen.word}, at so many seconds on the clock of the record`}
        value={at}
        inputMode="decimal"
        autoComplete="off"
        onChange={({ target }) => onAt(target.value)}
        hint={`${standing(chosen)} Type it, or open the closer look above and press the trace where it is.`}
      />
      {marked.length > 0 && (
        <fieldset className="zoom-steps">
          <legend>Put it on a marked moment</legend>
          {marked.map((event) => (
            <button
              key={`${event.passage} ${event.name} ${event.time}`}
              type="button"
              onClick={() => onAt(`${event.time}`)}
            >
              {momentName(event)}
            </button>
          ))}
        </fieldset>
      )}
      {chosen.asksLoss && (
        <Choice
          legend="How the pressure was lost"
          options={LossOfPressure.options.map((value) => ({ value, word: value }))}
          chosen={loss}
          onChoose={setLoss}
        />
      )}
      <TextArea
        label="Reason"
        value={reason}
        rows={2}
        maxLength={300}
        onChange={({ target }) => setReason(target.value)}
        hint="What you saw or heard that the record does not show. It is printed with the number."
      />
      <FormProblem error={move.error} />
      <p className="quiet small">
        The run is read again at once. What was proposed stays beside it, and whoever moves a moment does not decide
        whether this run is valid.
      </p>
      {missing !== undefined && at !== '' && <p className="small">{missing}</p>}
      <div className="actions">
        <button className="action" type="submit" disabled={missing !== undefined || move.isPending}>
          Keep this moment
        </button>
        {chosen.moved && (
          <button
            className="action"
            type="button"
            disabled={reason.trim() === '' || move.isPending}
            onClick={() => move.mutate('as proposed')}
          >
            Leave it as proposed
          </button>
        )}
      </div>
    </form>
  );
}
