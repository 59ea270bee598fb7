import type { TraceEvent } from '@breakbook/lab';
import { printFixed } from '@breakbook/units';
import type { WindowOfChannel } from '../../../client/answers.js';
import { TracePlot } from '../../../parts/figures/lab-figures.js';
import { Table } from '../../../parts/table.js';
import { usePrint } from '../../../parts/units/reader.js';

/** So few samples are told one by one beside the figure. */
const MOST_TOLD = 100;

/** Part of a channel as a figure; where it is a few samples, each of them in a table too. */
export function ZoomedTrace(given: {
  of: WindowOfChannel;
  title: string;
  events: readonly TraceEvent[];
  /** Hears the sample that was pointed at: of those drawn the nearest in time. */
  onPick?: (time: number) => void;
}) {
  const { of, title, events, onPick } = given;
  const { quantity } = usePrint();
  const { channel, unit, reference, from, to, samples, whole, time, values } = of;
  const decimals = Math.max(1, Math.min(9, 3 - Math.floor(Math.log10(Math.max(to - from, 1e-6)))));
  const span = `${printFixed(from, decimals)} to ${printFixed(to, decimals)} s`;
  const said = whole
    ? `All ${printFixed(samples, 0)} samples from ${span}.`
    : `${printFixed(samples, 0)} samples from ${span}, drawn from ${printFixed(time.length, 0)} of them: the smallest and the largest of each stretch of time.`;
  if (time.length === 0) return <p role="status">There is no sample from {span}. Show a wider part.</p>;
  const inside = events.filter((one) => one.channel === channel && one.time >= from && one.time <= to);
  return (
    <>
      <p role="status">{said}</p>
      <TracePlot
        of={{
          title,
          alt: `${title}, ${span}.`,
          caption: `${title}, ${span}.`,
          channels: [{ channel, title, unit, ...(reference ? { reference } : {}), samples: { time, values } }],
          events: inside,
        }}
        onPick={onPick && ((at) => onPick(nearest(time, at)))}
      />
      {whole && samples <= MOST_TOLD && (
        <Table<number>
          caption="Single samples"
          columns={[
            { head: 'Time, s', number: true, cell: (index) => String(time[index]) },
            { head: 'Value', number: true, cell: (index) => quantity(values[index] as number, unit) },
          ]}
          rows={time.map((_, index) => index)}
          rowKey={String}
          empty="There is no sample here."
        />
      )}
    </>
  );
}

function nearest(times: readonly number[], at: number): number {
  return times.reduce((best, one) => (Math.abs(one - at) < Math.abs(best - at) ? one : best), times[0] ?? at);
}
