import type { TraceEvent } from '@breakbook/lab';
import { printFixed } from '@breakbook/units';
import { keepPreviousData, useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { ChannelOfRun } from '../../../client/answers.js';
import { channelsQuery, windowQuery } from '../../../client/queries.js';
import { Select } from '../../../parts/field.js';
import { inWords } from '../../../parts/in-words.js';
import { Reading, Trouble } from '../../../parts/trouble.js';
import './trace-zoom.css';
import { about, type Span, stepped, ZOOM_STEPS } from './zoom-steps.js';
import { ZoomedTrace } from './zoomed-trace.js';

/** Shown about a moment: so much of the record. */
const ABOUT_MOMENT = 0.01;

export type OnPick = (time: number, passage: number | undefined) => void;

interface ZoomProps {
  run: string;
  events: readonly TraceEvent[];
  onPick: OnPick | undefined;
}

/** One channel of a run, closer and closer, down to its single samples. */
export function TraceZoom({ run, events, onPick }: ZoomProps) {
  const { data, error, refetch } = useQuery(channelsQuery(run));
  if (error) return <Trouble error={error} onAgain={() => void refetch()} />;
  if (!data) return <Reading what="the channels" />;
  const [first] = data.items;
  if (!first) return <p className="quiet">No channel of this run is stored.</p>;
  return <Channels run={run} events={events} onPick={onPick} channels={data.items} />;
}

function Channels({ run, events, onPick, channels }: ZoomProps & { channels: readonly ChannelOfRun[] }) {
  const [place, setPlace] = useState(0);
  const channel = channels[place] ?? channels[0];
  if (!channel) return null;
  return (
    <div className="trace-zoom">
      <Select
        label="Channel"
        value={`${place}`}
        onChange={({ target }) => setPlace(Number(target.value))}
        options={channels.map((one, index) => ({ value: `${index}`, word: nameOf(one) }))}
      />
      <OneChannel
        key={place}
        run={run}
        channel={channel}
        onPick={onPick}
        events={events.filter(
          (one) => channel.passage === undefined || one.passage === undefined || one.passage === channel.passage,
        )}
      />
    </div>
  );
}

function OneChannel({ run, channel, events, onPick }: ZoomProps & { channel: ChannelOfRun }) {
  const record: Span = { from: channel.from, to: channel.to };
  const [shown, setShown] = useState(record);
  const asked = { channel: channel.channel, passage: channel.passage, ...shown };
  const { data, error, refetch } = useQuery({ ...windowQuery(run, asked), placeholderData: keepPreviousData });
  const moments = events.filter(({ time }) => time >= record.from && time <= record.to);
  return (
    <>
      <fieldset className="zoom-steps">
        <legend>Show</legend>
        {ZOOM_STEPS.map((step) => (
          <button key={step} type="button" onClick={() => setShown(stepped(step, shown, record))}>
            {step}
          </button>
        ))}
      </fieldset>
      {moments.length > 0 && (
        <fieldset className="zoom-steps">
          <legend>Go to</legend>
          {moments.map(({ name, time, passage }) => (
            <button
              key={`${passage} ${name} ${time}`}
              type="button"
              onClick={() => setShown(about(time, ABOUT_MOMENT * (record.to - record.from), record))}
            >
              {name}
            </button>
          ))}
        </fieldset>
      )}
      {error ? (
        <Trouble error={error} onAgain={() => void refetch()} />
      ) : data ? (
        <ZoomedTrace
          of={data}
          title={nameOf(channel)}
          events={events}
          {...(onPick ? { onPick: (time) => onPick(time, channel.passage) } : {})}
        />
      ) : (
        <Reading what={nameOf(channel)} />
      )}
      <p>
        <a href={`/api/runs/${encodeURIComponent(run)}/channels.csv${passageOf(channel)}`} download>
          Channels of this record as CSV
        </a>{' '}
        or{' '}
        <a href={`/api/runs/${encodeURIComponent(run)}/channels.parquet${passageOf(channel)}`} download>
          as Parquet
        </a>
        , {printFixed(channel.samples, 0)} rows, corrected already
      </p>
    </>
  );
}

function nameOf({ channel, passage }: ChannelOfRun): string {
  return passage === undefined ? inWords(channel) : `${inWords(channel)}, passage ${passage}`;
}

function passageOf({ passage }: ChannelOfRun): string {
  return passage === undefined ? '' : `?passage=${passage}`;
}
