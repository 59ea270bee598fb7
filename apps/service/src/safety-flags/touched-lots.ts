import { Key } from '@breakbook/lab';
import { type Reader, tables } from '@breakbook/records';
import { In } from 'typeorm';
import { z } from 'zod';

/** A lot that what was seen may touch, and why. Nobody has decided that it does. */
export const TouchedLot = z.strictObject({
  lot: Key,
  product: Key,
  /** Such as "same product DUNLIN-42", "measured with sensor P-7", "mould M3, as in lot P-2031-04". */
  because: z.array(z.string()),
});
export type TouchedLot = z.infer<typeof TouchedLot>;

/**
 * Every lot that can be named today beside those a flag concerns: of the same product, measured with the same sensors, or
 * with a specimen built by the same step (mould, drill, crew: whatever the lab records of a build).
 */
export async function touchedLots(reader: Reader, flag: tables.SafetyFlag): Promise<TouchedLot[]> {
  const version = await reader.latest(tables.SafetyFlagVersion, flag.id);
  const named = (await reader.find(tables.SafetyFlagLot, { versionId: version.id })).map(({ lotId }) => lotId);
  const because = new Map<string, string[]>(named.map((lotId) => [lotId, [`named by safety flag ${flag.number}`]]));
  const note = (lotId: string, why: string) => because.set(lotId, [...(because.get(lotId) ?? []), why]);
  for (const { lot_id, product } of await ofSameProduct(reader, named)) note(lot_id, `same product ${product}`);
  for (const { lot_id, sensor } of await bySameSensor(reader, named)) note(lot_id, `measured with sensor ${sensor}`);
  for (const { lot_id, step } of await bySameBuild(reader, named)) note(lot_id, `built with ${step}`);
  const lots = await reader.find(tables.Lot, { id: In([...because.keys()]) }, { number: 'asc' });
  const contents = await reader.latestOf(
    tables.LotVersion,
    lots.map(({ id }) => id),
  );
  return lots.flatMap(({ id, key }) => {
    const product = contents.get(id)?.content.product;
    return product === undefined ? [] : { lot: key, product, because: because.get(id) ?? [] };
  });
}

const LAST_OF_LOT = `select lot.lab_id, lot.id, said.content from lot
  join lateral (
    select content from lot_version where lab_id = lot.lab_id and record_id = lot.id order by version desc limit 1
  ) said on true`;

function ofSameProduct({ manager, labId }: Reader, lots: string[]): Promise<{ lot_id: string; product: string }[]> {
  return manager.query(
    `with lots as (${LAST_OF_LOT} where lot.lab_id = $1)
     select distinct other.id as lot_id, other.content ->> 'product' as product
     from lots own join lots other on other.content ->> 'product' = own.content ->> 'product'
     where own.id = any($2) and other.id <> all($2) order by 1, 2`,
    [labId, lots],
  );
}

function bySameSensor({ manager, labId }: Reader, lots: string[]): Promise<{ lot_id: string; sensor: string }[]> {
  return manager.query(
    `with used as (
       select distinct specimen.lot_id, placement.sensor_id
       from run_channel channel
       join run_version body on body.lab_id = channel.lab_id and body.id = channel.run_version_id
       join run on run.lab_id = body.lab_id and run.id = body.record_id
       join specimen on specimen.lab_id = run.lab_id and specimen.id = run.specimen_id
       join sensor_placement placement on placement.lab_id = channel.lab_id
         and placement.id = channel.sensor_placement_id
       where channel.lab_id = $1
     )
     select distinct other.lot_id, sensor.key as sensor
     from used own join used other on other.sensor_id = own.sensor_id
     join sensor on sensor.lab_id = $1 and sensor.id = own.sensor_id
     where own.lot_id = any($2) and other.lot_id <> all($2) order by 1, 2`,
    [labId, lots],
  );
}

function bySameBuild({ manager, labId }: Reader, lots: string[]): Promise<{ lot_id: string; step: string }[]> {
  return manager.query(
    `with steps as (
       select distinct specimen.lot_id, step.key || ' ' || step.value as step
       from specimen
       join lateral (
         select content from specimen_version
         where lab_id = specimen.lab_id and record_id = specimen.id order by version desc limit 1
       ) said on true
       cross join lateral jsonb_each_text(coalesce(said.content -> 'build', '{}'::jsonb)) step
       where specimen.lab_id = $1
     )
     select distinct other.lot_id, own.step
     from steps own join steps other on other.step = own.step
     where own.lot_id = any($2) and other.lot_id <> all($2) order by 1, 2`,
    [labId, lots],
  );
}
