import { type TracePlotInput } from '@breakbook/figures';
import { type Method, type Reading, type Run } from '@breakbook/lab';
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
export function tracePlotOf({ run, method, reading, channels: all, ...shown }: TraceOfRun): TracePlotInput {
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
      name: `${event.name}${loss ? ` (${loss})` : ''}${moved ? ', moved' : ''}`,
    }));
  const which = `run ${run.run}${passage === undefined ? '' : `, passage ${passage}`}, specimen ${run.specimen}`;
  const told = events.map(
    ({ name, time, value, channel }) =>
      `${name} at ${time.toFixed(1)} s, ${both(measuredInWords({ value: { kind: 'exact', value }, unit: unitOf(channel) ?? '1' }))}`,
  );
  return {
    title: `Record of ${which}`,
    alt: `Record over time of ${channels.map(({ channel }) => spoken(channel).toLowerCase()).join(', ')}. ${told.join('; ')}.`,
    caption: `Record of ${which}, read by ${method.method} rev. ${method.revision} with ${reading.software}. Each stretch of time shows its smallest and largest sample. Marked: ${events.map(({ name }) => name).join(', ') || 'nothing'}.`,
    channels: channels.map(({ channel, unit, reference, time, values }) => ({
      channel,
      title: spoken(channel),
      unit,
      ...(reference ? { reference } : {}),
      samples: { time, values },
    })),
    events,
  };
}

/** `rimPressure2` as people say it: "Rim pressure 2". */
export function spoken(channel: string): string {
  const words = channel.replace(/(?<=[a-z])(?=[A-Z0-9])/g, ' ').toLowerCase();
  return words.charAt(0).toUpperCase() + words.slice(1);
}
