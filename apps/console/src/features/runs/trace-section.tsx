import { type TraceEvent } from '@breakbook/lab';
import { printFixed, QUANTITY_KINDS } from '@breakbook/units';
import { TracePlot } from '../../parts/figures/lab-figures.js';
import { inWords } from '../../parts/in-words.js';
import { Section } from '../../parts/sheet/sheet.js';
import { Table } from '../../parts/table.js';
import { usePrint } from '../../parts/units/reader.js';
import { type RunOnSheet } from './use-run-sheet.js';
import { LookCloser } from './zoom/look-closer.js';

/** What did the specimen do? The trace with the moments the results were read from. */
export function TraceSection({ answer: { run, reading, trace }, around }: RunOnSheet) {
  const { quantity } = usePrint();
  const { method } = around;
  const printed = ({ channel, value }: TraceEvent) => {
    const kind = method?.channels.find((one) => one.channel === channel)?.kind;
    // Channels are judged in the stored unit of their kind; one that was computed, in the unit it is drawn in.
    const unit =
      kind === undefined ? trace?.channels.find((one) => one.channel === channel)?.unit : QUANTITY_KINDS[kind].stored;
    return unit === undefined ? printFixed(value, 2) : quantity(value, unit);
  };
  const keyed = run.files.length === 0;
  // A strike is over in hundredths of a second.
  const decimals = reading.events.every(({ time }) => time < 1) ? 5 : 3;
  return (
    <Section question="What did the specimen do?" word="Trace">
      {trace === null ? (
        <p className="quiet">
          {keyed
            ? 'This run was keyed from a results table, so there is no trace.'
            : 'No channel of this run can be drawn.'}
        </p>
      ) : (
        <TracePlot of={trace} />
      )}
      {!keyed && <LookCloser run={run.run} events={reading.events} />}
      {!keyed && (
        <Table<TraceEvent>
          caption="Moments marked in the trace"
          columns={[
            {
              head: 'Moment',
              cell: ({ name, passage }) => (passage === undefined ? name : `${name}, passage ${passage}`),
            },
            { head: 'Time, s', number: true, cell: ({ time }) => printFixed(time, decimals) },
            { head: 'Value', number: true, cell: printed },
            { head: 'Channel', cell: ({ channel }) => inWords(channel) },
          ]}
          rows={reading.events}
          rowKey={({ name, time, passage }) => `${passage} ${name} ${time}`}
          empty="No moment is marked in this trace."
        />
      )}
    </Section>
  );
}
