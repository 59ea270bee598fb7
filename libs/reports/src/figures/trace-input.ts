import { capital } from '@breakbook/acceptance';
import type { TracePlotInput } from '@breakbook/figures';
import type { Method, Reading, Run } from '@breakbook/lab';
import { converter } from '@breakbook/units';
import { PLAIN, type Printing } from '../words/printing.js';
import { both, measuredInWords } from '../words/units.js';

export interface TraceOfRun {
  run: Run;
  method: Method;
  reading: Reading;
  /** Which of several passages is shown; the last one recorded, if nothing else is said. */
  passage?: number;
  /** Thinned for drawing; times in seconds. Those recorded in another passage than the one shown are left out. */
  channels: readonly {
    channel: string;
    unit: string;
    reference?: 'gauge' | 'absolute';
    passage?: number;
    time: ArrayLike<number>;
    values: ArrayLike<number>;
  }[];
}

/**
 * Of a run of several passages with a record each, the last: the one that came nearest to the end of the part. Undefined
 * where one record covers the whole run.
 */
export function lastPassage(channels: readonly { passage?: number }[]): number | undefined {
  const passages = channels.flatMap(({ passage }) => passage ?? []);
  return passages.length === 0 ? undefined : Math.max(...passages);
}

/** The record of a run with the moments its result was read from. */
export function tracePlotOf(
  { run, method, reading, channels: all, ...shown }: TraceOfRun,
  printing: Printing = PLAIN,
): TracePlotInput {
  const { say, named, number, units } = printing;
  const passage = shown.passage ?? lastPassage(all);
  const isShown = (one: { passage?: number }) =>
    passage === undefined || one.passage === undefined || one.passage === passage;
  const channels = all.filter(isShown);
  const unitOf = (channel: string) => channels.find((one) => one.channel === channel)?.unit;
  // A record of the whole run has the moments of all its passages, which then share one clock.
  const events = reading.events
    .filter((event) => isShown(event) && unitOf(event.channel) !== undefined)
    .map(({ loss, moved, ...event }) => ({
      ...event,
      name: `${named(event.name)}${loss ? ` (${named(loss)})` : ''}${moved ? say(', moved') : ''}`,
    }));
  const which = say('run {run}{passage}, specimen {specimen}', {
    run: run.run,
    passage: passage === undefined ? '' : say(', passage {passage}', { passage }),
    specimen: run.specimen,
  });
  const moments = events.map(({ name, time, value, channel }) =>
    say('{name} at {time} s, {value}', {
      name,
      time: number(time.toFixed(1)),
      value: both(measuredInWords({ value: { kind: 'exact', value }, unit: unitOf(channel) ?? '1' }, printing)),
    }),
  );
  return {
    title: say('Record of {which}', { which }),
    alt: say('Record over time of {channels}. {moments}.', {
      channels: channels.map(({ channel }) => channelNamed(channel, named)).join(', '),
      moments: moments.join('; '),
    }),
    caption: say(
      'Record of {which}, read by {method} rev. {revision} with {software}. Each stretch of time shows its smallest and largest sample. Marked: {marked}.',
      {
        which,
        method: method.method,
        revision: method.revision,
        software: reading.software,
        marked: events.map(({ name }) => name).join(', ') || say('nothing'),
      },
    ),
    channels: channels.map(({ channel, unit, reference, time, values }) => ({
      channel,
      title: capital(channelNamed(channel, named)),
      unit: units.of(unit),
      ...(reference ? { reference } : {}),
      samples: { time, values: inUnit(values, unit, units.of(unit)) },
    })),
    events: events.map((event) => {
      const unit = unitOf(event.channel) ?? '1';
      return { ...event, value: converter(unit, units.of(unit))(event.value) };
    }),
  };
}

function inUnit(values: ArrayLike<number>, from: string, to: string): ArrayLike<number> {
  return from === to ? values : Array.from(values, converter(from, to));
}

/** A channel in the middle of a sentence. */
export function channelNamed(channel: string, named: Printing['named']): string {
  return named(spoken(channel).toLowerCase());
}

/** `rimPressure2` as people say it: "Rim pressure 2". */
export function spoken(channel: string): string {
  const words = channel.replace(/(?<=[a-z])(?=[A-Z0-9])/g, ' ').toLowerCase();
  return words.charAt(0).toUpperCase() + words.slice(1);
}
