import { useQuery } from '@tanstack/react-query';
import { Link, useParams } from 'react-router';
import type { CalibrationRecord, PlacementRecord, RigRecord } from '../../client/answers.js';
import { calibrationsQuery, labQuery, layoutsInForceQuery, placementsQuery, rigQuery } from '../../client/queries.js';
import { layoutAddress } from '../../parts/addresses.js';
import { day } from '../../parts/moment.js';
import { HeadStrip, Section, Sheet } from '../../parts/sheet/sheet.js';
import { Table } from '../../parts/table.js';
import { Reading, Trouble } from '../../parts/trouble.js';
import { usePrint } from '../../parts/units/reader.js';
import { clockIn } from '../../parts/zoned.js';
import { useMe } from '../people/me.js';
import { dueOf } from './due.js';

/** One rig: which sensors sit on it, until when they are calibrated, how its files are read. */
export function RigPage() {
  const { rig: key = '' } = useParams();
  const rig = useQuery(rigQuery(key));
  const placements = useQuery(placementsQuery(key));
  const calibrations = useQuery(calibrationsQuery);
  const error = rig.error ?? placements.error ?? calibrations.error;
  return (
    <Sheet title={`Rig ${key}`}>
      {rig.data && placements.data && calibrations.data ? (
        <RigSheet rig={rig.data} placements={placements.data.items} calibrations={calibrations.data} />
      ) : error ? (
        <Trouble
          error={error}
          onAgain={() => {
            void rig.refetch();
            void placements.refetch();
            void calibrations.refetch();
          }}
        />
      ) : (
        <Reading what={`rig ${key}`} />
      )}
    </Sheet>
  );
}

interface RigSheetProps {
  rig: RigRecord;
  placements: readonly PlacementRecord[];
  calibrations: readonly CalibrationRecord[];
}

function RigSheet({ rig, placements, calibrations }: RigSheetProps) {
  const { declared } = usePrint();
  const { duties } = useMe();
  const { data: lab } = useQuery(labQuery);
  const { data: layouts = [] } = useQuery(layoutsInForceQuery);
  const today = clockIn(lab?.zone ?? 'UTC', Date.now()).slice(0, 10);
  const events = calibrations.map(({ content }) => content);
  const sensors = placements
    .map(({ placement, content }) => ({ placement, ...content, due: dueOf(content.sensor, events, today) }))
    .sort((a, b) => a.channel.localeCompare(b.channel));
  const sitting = sensors.filter(({ to }) => to === undefined || to >= today);
  const late = sitting.filter(({ due }) => due.standing === 'past its due date' || due.standing === 'never calibrated');
  const layout = layouts.find(({ content }) => content.rig === rig.key)?.content;
  const { name, location, rigLimit } = rig.content;
  return (
    <>
      <HeadStrip
        noun="Rig"
        name={rig.key}
        of={name}
        sentence={
          late.length === 0
            ? 'Every sensor on it is within its calibration.'
            : `Not calibrated for today: ${late.map(({ channel, sensor }) => `${sensor} on ${channel}`).join(', ')}. Runs made with it are flagged.`
        }
        actions={
          (duties.includes('define') || duties.includes('record')) && (
            <Link className="action" to={layoutAddress(rig.key)}>
              Make a layout for a file
            </Link>
          )
        }
        facts={[
          { term: 'Stands in', says: location },
          { term: 'Stops by itself at', says: rigLimit ? declared(rigLimit.value, rigLimit.unit) : 'not stated' },
          {
            term: 'File layout',
            says: layout ? `${layout.layout} rev. ${layout.revision}` : 'none: no file of it can be read',
          },
        ]}
      />
      <Section question="Which sensors sit on it, and until when are they calibrated?" word="Sensors">
        <Table
          caption="Sensors, placed and removed"
          columns={[
            { head: 'Channel', cell: ({ channel }) => channel },
            { head: 'Sensor', cell: ({ sensor }) => sensor },
            { head: 'From', cell: ({ from }) => <span className="whole">{day(from)}</span> },
            {
              head: 'To',
              cell: ({ to }) => <span className="whole">{to === undefined ? 'sits there' : day(to)}</span>,
            },
            {
              head: 'Full scale',
              number: true,
              cell: ({ fullScale }) => declared(fullScale.value, fullScale.unit),
            },
            { head: 'Last calibration', cell: ({ due: { last } }) => last?.calibration ?? 'none' },
            {
              head: 'Due',
              cell: ({ due: { last } }) => <span className="whole">{last ? day(last.due) : 'none'}</span>,
            },
            { head: 'Standing', cell: ({ due: { standing } }) => standing },
          ]}
          rows={sensors}
          rowKey={({ placement }) => placement}
          empty="No sensor is placed on it yet."
        />
      </Section>
      {layout && (
        <Section question="How are its files read?" word="File layout">
          <Table
            caption={`Columns of ${layout.layout} rev. ${layout.revision} (${layout.form}); the unit stands in each file's header`}
            columns={[
              { head: 'Column', cell: ({ column }) => column },
              { head: 'Channel', cell: ({ channel }) => channel },
            ]}
            rows={[{ column: layout.time.column, channel: 'time' }, ...layout.columns]}
            rowKey={({ column }) => column}
            empty=""
          />
        </Section>
      )}
    </>
  );
}
