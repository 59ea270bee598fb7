import { Refusal, type SensorPlacement } from '@breakbook/lab';
import { newId, type Reader, type Rows, tables } from '@breakbook/records';
import { Names } from '../records/names.js';
import { said } from '../records/revisions.js';

/** Where the sensors of a rig sit, and sat: each placement as it is said to be now. */
export async function placementsOf(reader: Reader, rigId: string): Promise<tables.SensorPlacement[]> {
  const all = await reader.find(tables.SensorPlacement, { rigId });
  const latest = await reader.latestOf(tables.SensorPlacement, [...new Set(all.map(({ recordId }) => recordId))]);
  return [...latest.values()].filter((one) => one.rigId === rigId);
}

/** A sensor is placed on a channel of a rig. */
export async function place(rows: Rows, rigKey: string, content: SensorPlacement): Promise<tables.SensorPlacement> {
  const rig = await rows.named(tables.Rig, rigKey);
  return write(rows, rig, newId(), content, '', 0);
}

/** Something else is said of a placement: most often, when it ended. */
export async function changePlacement(
  rows: Rows,
  rigKey: string,
  placementId: string,
  content: SensorPlacement,
  follows: number,
): Promise<tables.SensorPlacement> {
  const rig = await rows.named(tables.Rig, rigKey);
  const known = (await placementsOf(rows, rig.id)).find(({ recordId }) => recordId === placementId);
  if (!known)
    throw new Refusal({ code: 'request.not-found', detail: `Rig ${rigKey} has no placement of this id in this lab.` });
  return write(rows, rig, placementId, content, '/content', follows);
}

/** What a lot folder says of a placement. It has no name there; sensor, channel and first day tell it from others. */
export async function keepPlacement(rows: Rows, rigKey: string, content: SensorPlacement): Promise<void> {
  const rig = await rows.named(tables.Rig, rigKey);
  const sensor = await rows.named(tables.Sensor, content.sensor);
  const known = await rows.find(tables.SensorPlacement, { rigId: rig.id, sensorId: sensor.id });
  const before = known.find((one) => one.content.channel === content.channel && one.content.from === content.from);
  const values = { rigId: rig.id, sensorId: sensor.id, content };
  await said(rows, tables.SensorPlacement, before?.recordId ?? newId(), values, (one) => one.content);
}

async function write(
  rows: Rows,
  rig: tables.Rig,
  recordId: string,
  content: SensorPlacement,
  at: string,
  follows: number,
): Promise<tables.SensorPlacement> {
  const names = new Names(rows, at);
  const sensorId = await names.idOf(tables.Sensor, content.sensor, '/sensor');
  if (content.to !== undefined && content.to < content.from)
    names.note('body.range', '/to', `must not be before the first day, ${content.from}.`, content.to);
  names.refuse();
  // Two people placing one sensor, or filling one channel, take turns.
  await rows.lock(tables.Rig, rig.id);
  await rows.lock(tables.Sensor, sensorId);
  await noteOverlaps(rows, names, rig, { recordId, sensorId, content });
  names.refuse();
  return rows.addVersion(tables.SensorPlacement, recordId, { rigId: rig.id, sensorId, content }, follows);
}

/** A channel is fed by one sensor at a time, and a sensor sits in one place at a time. */
async function noteOverlaps(
  rows: Rows,
  names: Names,
  rig: tables.Rig,
  { recordId, sensorId, content }: { recordId: string; sensorId: string; content: SensorPlacement },
): Promise<void> {
  const ofSensor = await rows.find(tables.SensorPlacement, { sensorId });
  const latest = await rows.latestOf(tables.SensorPlacement, [...new Set(ofSensor.map((one) => one.recordId))]);
  const elsewhere = [...latest.values()].find(
    (one) => one.recordId !== recordId && one.sensorId === sensorId && overlap(one.content, content),
  );
  if (elsewhere) {
    const other = await rows.one(tables.Rig, elsewhere.rigId);
    names.note(
      'state.conflict',
      '/sensor',
      `${content.sensor} feeds ${elsewhere.content.channel} of rig ${other.key} ${period(elsewhere.content)}. End that placement first.`,
      content.sensor,
    );
  }
  const onChannel = (await placementsOf(rows, rig.id)).find(
    (one) =>
      one.recordId !== recordId &&
      one.sensorId !== sensorId &&
      one.content.channel === content.channel &&
      overlap(one.content, content),
  );
  if (onChannel)
    names.note(
      'state.conflict',
      '/channel',
      `${content.channel} of rig ${rig.key} is fed by ${onChannel.content.sensor} ${period(onChannel.content)}. End that placement first.`,
      content.channel,
    );
}

/** A sensor is moved within a day, so the last day of one placement may be the first of the next. */
function overlap(one: SensorPlacement, other: SensorPlacement): boolean {
  const last = '9999-12-31';
  return one.from === other.from || (one.from < (other.to ?? last) && other.from < (one.to ?? last));
}

function period({ from, to }: SensorPlacement): string {
  return to === undefined ? `from ${from} on` : `from ${from} to ${to}`;
}
