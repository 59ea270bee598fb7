import { type Reader, tables } from '@breakbook/records';
import { acceptance } from '../arithmetic.js';

/** The day on which an instant falls in the lab's zone. */
export async function dayInLab(reader: Reader, at: Date): Promise<string> {
  const { daysIn } = await acceptance();
  const { content } = await reader.latest(tables.LabVersion, reader.labId);
  return daysIn(content.zone)(at.toISOString());
}
