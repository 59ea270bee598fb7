import { type TracePlotInput } from '@breakbook/figures';
import { type Method, type Reading, type Run } from '@breakbook/lab';
import { both, measuredInWords } from '../words/units.js';

export interface TraceOfRun {
  run: Run;
  method: Method;
  reading: Reading;
  /** Which of several passages the channels were recorded in. */
  passage?: number;
  /** Thinned for drawing; times in seconds. */
  channels: readonly {
    channel: string;
    unit: string;
    reference?: 'gauge' | 'absolute';
    time: ArrayLike<number>;
    values: ArrayLike<number>;
  }[];
}

/** The record of a run with the moments its result was read from. */
export function tracePlotOf({ run, method, reading, passage, channels }: TraceOfRun): TracePlotInput {
  const unitOf = (channel: string) => channels.find((one) => one.channel === channel)?.unit;
  const events = reading.events.filter((event) => event.passage === passage && unitOf(event.channel) !== undefined);
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
