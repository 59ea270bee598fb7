import { moment } from '../../parts/moment.js';
import { Facts, Section } from '../../parts/sheet/sheet.js';
import { Table } from '../../parts/table.js';
import { usePrint } from '../../parts/units/reader.js';
import { Who } from '../../parts/who.js';
import type { RunOnSheet } from './use-run-sheet.js';

/** On what rig, with which sensors and under which conditions was it made, and where did it depart from the method? */
export function ConditionsSection({ answer: { run, reading }, around }: RunOnSheet) {
  const { declared } = usePrint();
  const { rig } = around;
  const conditions = Object.entries(run.conditions);
  return (
    <Section question="How was it made?" word="Rig and conditions">
      <Facts
        of={[
          { term: 'Rig', says: rig ? `${rig.rig}: ${rig.name}, ${rig.location}` : 'none: values were keyed' },
          {
            term: 'Readiness',
            says: run.readiness ? (
              <>
                confirmed by <Who people={around.people} person={run.readiness.confirmedBy} />,{' '}
                {moment(run.readiness.at, around.lab.zone)}
              </>
            ) : (
              'not recorded'
            ),
          },
          ...conditions.map(([name, value]) => ({
            term: name,
            says: typeof value === 'string' ? value : declared(value.value, value.unit),
          })),
        ]}
      />
      {reading.calibrations.length > 0 && (
        <Table
          caption="Calibrations that corrected this run"
          columns={[
            { head: 'Channel', cell: ({ channel }) => channel },
            { head: 'Sensor', cell: ({ sensor }) => sensor },
            { head: 'Calibration', cell: ({ calibration }) => calibration },
            {
              head: 'On the day of the run',
              cell: ({ validOnDay }) => (validOnDay ? 'within its due date' : 'past its due date'),
            },
          ]}
          rows={reading.calibrations}
          rowKey={({ channel }) => channel}
          empty=""
        />
      )}
      {run.deviations.length === 0 ? (
        <p className="quiet">No deviation from the method is recorded.</p>
      ) : (
        <>
          <h3>Deviations from the method</h3>
          <ul className="notes">
            {run.deviations.map((deviation) => (
              <li key={deviation} className="verbatim">
                {deviation}
              </li>
            ))}
          </ul>
        </>
      )}
    </Section>
  );
}
