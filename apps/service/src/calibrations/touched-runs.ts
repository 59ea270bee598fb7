import { Instant, Key } from '@breakbook/lab';
import { type Reader, tables } from '@breakbook/records';
import { z } from 'zod';
import type { PageOf } from '../records/kept.js';
import { nextPlace, type Paging, pageAsked } from '../records/paging.js';

/** A run that a sensor, or one of its calibrations, stood behind. */
export const TouchedRun = z.strictObject({
  run: Key,
  number: z.number().int(),
  startedAt: Instant,
  specimen: Key,
  lot: Key,
  /** The channels it fed. */
  channels: z.array(z.string()),
});
export type TouchedRun = z.infer<typeof TouchedRun>;

/** Runs in which this sensor measured: whose results are in question where it is. */
export async function runsOfSensor(reader: Reader, sensor: string, paging: Paging): Promise<PageOf<TouchedRun>> {
  const { id } = await reader.named(tables.Sensor, sensor);
  return touched(reader, 'placement.sensor_id = $2', id, paging);
}

/** Runs that were corrected by this calibration. */
export async function runsOfCalibration(
  reader: Reader,
  calibration: string,
  paging: Paging,
): Promise<PageOf<TouchedRun>> {
  const { id } = await reader.named(tables.Calibration, calibration);
  return touched(reader, 'calibration.record_id = $2', id, paging);
}

/** `by` is one of the two conditions above, never what somebody sent. */
async function touched(reader: Reader, by: string, id: string, paging: Paging): Promise<PageOf<TouchedRun>> {
  const { after, descending, limit } = pageAsked(paging, 'number');
  const rows = await reader.manager.query<(Omit<TouchedRun, 'startedAt'> & { startedAt: Date })[]>(
    `select run.key as run, run.number, version.started_at as "startedAt", specimen.key as specimen, lot.key as lot,
            array_agg(distinct channel.channel order by channel.channel) as channels
     from run_channel channel
     join sensor_placement placement on placement.lab_id = channel.lab_id and placement.id = channel.sensor_placement_id
     left join calibration_version calibration
       on calibration.lab_id = channel.lab_id and calibration.id = channel.calibration_version_id
     join run_version version on version.lab_id = channel.lab_id and version.id = channel.run_version_id
     join run on run.lab_id = version.lab_id and run.id = version.record_id
     join specimen on specimen.lab_id = run.lab_id and specimen.id = run.specimen_id
     join lot on lot.lab_id = specimen.lab_id and lot.id = specimen.lot_id
     where channel.lab_id = $1 and ${by}
       -- A corrected run is in question for what it says now.
       and version.version = (
         select max(latest.version) from run_version latest
         where latest.lab_id = run.lab_id and latest.record_id = run.id
       )
       and ($3::int is null or ${descending ? 'run.number < $3' : 'run.number > $3'})
     group by run.key, run.number, version.started_at, specimen.key, lot.key
     order by run.number ${descending ? 'desc' : 'asc'} limit $4`,
    [reader.labId, id, after ?? null, limit + 1],
  );
  const items = rows.slice(0, limit).map((row) => ({ ...row, startedAt: row.startedAt.toISOString() }));
  return { items, next: nextPlace(items.at(-1)?.number, rows.length > limit) };
}
