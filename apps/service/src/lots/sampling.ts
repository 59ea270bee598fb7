import type { SamplingRecord } from '@breakbook/lab';
import { type Reader, type Rows, tables } from '@breakbook/records';
import { acceptance } from '../arithmetic.js';
import { Names } from '../records/names.js';
import { said } from '../records/revisions.js';
import { specimensOf } from '../specimens/specimen-kind.js';

/** How specimens were drawn from a lot, where that is recorded. */
export async function samplingOf(reader: Reader, lotId: string): Promise<tables.SamplingRecord | undefined> {
  return (await reader.latestOf(tables.SamplingRecord, [lotId])).get(lotId);
}

/** Records how specimens were drawn from a lot. `follows` is the version seen; 0 where nothing was said of it yet. */
export async function writeSampling(
  rows: Rows,
  lot: tables.Lot,
  content: SamplingRecord,
  at: string,
  follows: number,
): Promise<tables.SamplingRecord> {
  const names = new Names(rows, at);
  const drawnById = await names.person(content.drawnBy, '/drawnBy');
  names.refuse();
  const drawer = await rows.latest(tables.PersonVersion, drawnById);
  const { builtByDrawer } = await acceptance();
  for (const specimen of await specimensOf(rows, lot.id))
    names.take(builtByDrawer(specimen, drawer.content, names.place('/drawnBy')));
  names.refuse();
  return rows.addVersion(tables.SamplingRecord, lot.id, { drawnById, content }, follows);
}

/** What a lot folder says of it. */
export async function keepSampling(rows: Rows, lot: tables.Lot, content: SamplingRecord): Promise<void> {
  const drawnBy = await rows.named(tables.Person, content.drawnBy);
  await said(rows, tables.SamplingRecord, lot.id, { drawnById: drawnBy.id, content }, (one) => one.content);
}
