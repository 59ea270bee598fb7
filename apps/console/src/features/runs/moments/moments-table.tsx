import type { Person, TraceEvent } from '@breakbook/lab';
import { printFixed } from '@breakbook/units';
import { inWords } from '../../../parts/in-words.js';
import { Table } from '../../../parts/table.js';
import { Who } from '../../../parts/who.js';

/** The moments the results were read from; those that a person put there with where they were proposed. */
export function MomentsTable(given: {
  events: readonly TraceEvent[];
  people: readonly Person[];
  printed: (event: TraceEvent) => string;
}) {
  const { events, people, printed } = given;
  // A strike is over in hundredths of a second.
  const decimals = events.every(({ time }) => time < 1) ? 5 : 3;
  const seconds = (time: number) => printFixed(time, decimals);
  return (
    <Table<TraceEvent>
      caption="Moments marked in the trace"
      columns={[
        { head: 'Moment', cell: momentName },
        { head: 'Time, s', number: true, cell: ({ time }) => seconds(time) },
        { head: 'Value', number: true, cell: printed },
        { head: 'Channel', cell: ({ channel }) => inWords(channel) },
        ...(events.some(({ moved }) => moved)
          ? [
              {
                head: 'Put there by',
                wide: true,
                cell: ({ moved, time }: TraceEvent) =>
                  moved ? (
                    <>
                      <Who people={people} person={moved.by} />,{' '}
                      {moved.proposed === undefined
                        ? 'where none was proposed'
                        : moved.proposed === time
                          ? 'as proposed'
                          : `proposed at ${seconds(moved.proposed)} s`}
                    </>
                  ) : (
                    'the checks'
                  ),
              },
            ]
          : []),
      ]}
      rows={events}
      rowKey={({ name, time, passage }) => `${passage} ${name} ${time}`}
      empty="No moment is marked in this trace."
    />
  );
}

export function momentName({ name, passage, loss }: Pick<TraceEvent, 'name' | 'passage' | 'loss'>): string {
  const as = loss === undefined ? name : `${name} (${loss})`;
  return passage === undefined ? as : `${as}, passage ${passage}`;
}
